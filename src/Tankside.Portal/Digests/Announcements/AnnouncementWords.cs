using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>Words a letter of an announcement with its reader's values as they are when it goes.</summary>
internal sealed class AnnouncementWords(IServiceScopeFactory scopes, IDbContextFactory<HatcheryDb> databases, TimeProvider time) : IFreshWords
{
    public const string TakenBack = "the announcement was taken back.";

    public MailKind? Kind => MailKind.Announcement;

    public bool Knows(OutgoingLetter letter) => letter.Key.StartsWith(WriteAnnouncement.Kind, StringComparison.Ordinal);

    public async Task<FreshWords> WordAsync(OutgoingLetter letter, CancellationToken cancel)
    {
        var id = Guid.ParseExact(letter.Key.Split(' ')[1], "N");
        await using var db = await databases.CreateDbContextAsync(cancel);
        var announcement = await db.Announcements.AsNoTracking().SingleAsync(a => a.Id == id, cancel);
        if (announcement.TakenBackAt is not null)
        {
            return new FreshWords.NotNeeded(TakenBack);
        }

        var reader = letter.PersonId!.Value;
        await using var scope = scopes.CreateAsyncScope();
        var facts = await scope.ServiceProvider.GetRequiredService<FactsOfReaders>()
            .LoadAsync(db, letter.ProgrammeId, announcement.WrittenBy, [reader], time.GetUtcNow().UtcDateTime, cancel);
        if (!facts.TryGetValue(reader, out var known))
        {
            return new FreshWords.NotNeeded("they are not in the programme any more.");
        }

        var language = await db.Users.Where(p => p.Id == reader).Select(p => p.Language).SingleAsync(cancel);
        var programme = await db.Programmes.Where(p => p.Id == letter.ProgrammeId).Select(p => p.Name).SingleAsync(cancel);
        var (subject, text) = Wording.Of(announcement).For(known, language, programme);
        return new FreshWords.Say(subject, text);
    }
}
