using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;

namespace Tankside.Portal.Digests;

/// <summary>Words a morning mail from the round as it stands when it goes, while it is still the morning it was meant for.</summary>
internal sealed class DigestWords(LetterContents contents, IDbContextFactory<HatcheryDb> databases, TimeProvider time) : IFreshWords
{
    public bool Knows(OutgoingLetter letter) => DigestKey.Read(letter.Key) is not null;

    public MailKind? Kind => MailKind.Morning;

    public async Task<FreshWords> WordAsync(OutgoingLetter letter, CancellationToken cancel)
    {
        if (!await IsStillMorningAsync(DigestKey.Read(letter.Key)!, cancel))
        {
            return new FreshWords.NotNeeded("the morning it was for was over.");
        }

        var (phrases, programme) = await contents.ForAsync(letter.PersonId, letter.ProgrammeId, cancel);
        var round = await contents.RoundAsync(letter.ProgrammeId, cancel);
        var answer = phrases.Answer(round.Calls.Count, round.Well, round.Silent);
        string[] after = round.Doubts > 0 ? [phrases.Doubts(round.Doubts)] : [];
        return new FreshWords.Say(answer, await contents.TextAsync(answer, round.Rows, round, phrases, after, programme, cancel));
    }

    private async Task<bool> IsStillMorningAsync(DigestKey key, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == key.Programme, cancel);
        var (_, until) = MorningDigest.Window(ProgrammeClock.Of(programme.TimeZone), key.Day, programme.DigestAt);
        return time.GetUtcNow().UtcDateTime < until;
    }
}
