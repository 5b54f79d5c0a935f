using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;

namespace Tankside.Portal.Digests;

/// <summary>
/// Words a mail about what cannot wait when it goes: tanks that somebody has taken meanwhile, that are well again, or that an earlier mail
/// has told of are left out, and with none left it is not sent.
/// </summary>
internal sealed class UrgentWords(LetterContents contents, IDbContextFactory<HatcheryDb> databases, TimeProvider time) : IFreshWords
{
    /// <summary>A mail that is being sent this moment has told by then.</summary>
    private static readonly TimeSpan Moment = TimeSpan.FromMinutes(1);

    /// <summary>For so little longer a whole mail waits; beyond, it goes with the tanks that are free.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(5);

    public bool Knows(OutgoingLetter letter) => UrgentKey.Read(letter.Key) is not null;

    public MailKind? Kind => MailKind.Urgent;

    public async Task<FreshWords> WordAsync(OutgoingLetter letter, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        var key = UrgentKey.Read(letter.Key)!;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var urgent = await StillUrgentAsync(db, letter.ProgrammeId, key.Tanks, now, cancel);
        if (urgent.Count == 0)
        {
            return new FreshWords.NotNeeded("somebody took it, or it was over.");
        }

        var told = await ToldAsync(db, letter, now, cancel);
        var untold = urgent.Where(t => !told.TryGetValue(t, out var at) || at < key.Slot).ToList();
        var free = untold.Where(t => !told.TryGetValue(t, out var at) || at + UrgentLetters.Apart <= now).ToList();
        if (untold.Count == 0)
        {
            return new FreshWords.NotNeeded("a later mail has told it.");
        }

        if (free.Count < untold.Count)
        {
            var until = untold.Except(free).Max(t => told[t]) + UrgentLetters.Apart;
            if (free.Count == 0 || until - now <= Patience)
            {
                return new FreshWords.Later(until);
            }
        }

        return await SayAsync(letter, free, cancel) ?? new FreshWords.NotNeeded("it was over.");
    }

    private async Task<FreshWords?> SayAsync(OutgoingLetter letter, IReadOnlyList<string> tanks, CancellationToken cancel)
    {
        var (phrases, programme) = await contents.ForAsync(letter.PersonId, letter.ProgrammeId, cancel);
        var round = await contents.RoundAsync(letter.ProgrammeId, cancel);
        var calls = round.Calls.Where(c => tanks.Contains(c.Place.Tank.Code)).ToList();
        if (calls.Count == 0)
        {
            return null;
        }

        var subject = phrases.CannotWait(calls.Count == 1 ? phrases.Who(calls[0]) : string.Join(", ", calls.Take(8).Select(c => c.Place.Tank.Code)));
        var first = calls.Count == 1 ? subject : phrases.SeveralCannotWait(calls.Count);
        return new FreshWords.Say(subject, await contents.TextAsync(first, calls, round, phrases, [phrases.TakeTheCall], programme, cancel));
    }

    private static async Task<List<string>> StillUrgentAsync(HatcheryDb db, Guid programme, IReadOnlyList<string> codes, DateTime now, CancellationToken cancel)
    {
        var tanks = await db.Tanks.AsNoTracking().Where(t => t.ProgrammeId == programme && codes.Contains(t.Code)).ToDictionaryAsync(t => t.Id, t => t.Code, cancel);
        var flags = await db.Flags.AsNoTracking().Where(f => f.ProgrammeId == programme && f.State == FlagState.Open && f.Urgency == Urgency.ActNow
            && f.TakenBy == null && f.TankId != null && tanks.Keys.Contains(f.TankId.Value)).ToListAsync(cancel);
        return [.. flags.Where(f => !f.RestsAt(now)).Select(f => tanks[f.TankId!.Value]).Distinct()];
    }

    /// <summary>When this person was last told of each tank. Of two mails in hand at once, by two portals, the later written gives way.</summary>
    private static async Task<Dictionary<string, DateTime>> ToldAsync(HatcheryDb db, OutgoingLetter letter, DateTime now, CancellationToken cancel)
    {
        var since = now.AddDays(-1);
        var others = await db.OutgoingLetters.AsNoTracking()
            .Where(l => l.PersonId == letter.PersonId && l.ProgrammeId == letter.ProgrammeId && l.Id != letter.Id && l.WrittenAt > since
                && l.Key.StartsWith(UrgentKey.Beginning)
                && (l.State == LetterState.Sent || l.State == LetterState.KeptAsFile || l.State == LetterState.Sending))
            .ToListAsync(cancel);
        return others
            .Select(l => (Key: UrgentKey.Read(l.Key), At: l.SentAt ?? (l.Id.CompareTo(letter.Id) < 0 ? now - UrgentLetters.Apart + Moment : (DateTime?)null)))
            .Where(l => l.Key is not null && l.At is not null)
            .SelectMany(l => l.Key!.Tanks.Select(t => (Tank: t, At: l.At!.Value)))
            .GroupBy(t => t.Tank)
            .ToDictionary(g => g.Key, g => g.Max(t => t.At));
    }
}
