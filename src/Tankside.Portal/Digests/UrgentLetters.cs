using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests;

/// <summary>
/// Writes the mail about what cannot wait in the very transaction that raises the flags, so that a crash loses none and doubles none. Tanks
/// that became urgent together stand in one mail. A tank that had a mail within the hour gets its next when the hour is over, if it still
/// needs one then.
/// </summary>
internal sealed class UrgentLetters(Outbox outbox, TanksideOptions options) : ISavedWithFlags
{
    public static readonly TimeSpan Apart = TimeSpan.FromHours(1);

    public async Task AddAsync(HatcheryDb db, IReadOnlyList<Flag> cannotWait, DateTime now, CancellationToken cancel)
    {
        foreach (var flags in cannotWait.Where(f => f.TankId is not null).GroupBy(f => f.ProgrammeId))
        {
            var recipients = await Recipients.OfUrgentAsync(db, options, flags.Key, cancel);
            if (recipients.Count > 0)
            {
                var tankIds = flags.Select(f => f.TankId!.Value).Distinct().ToList();
                var codes = await db.Tanks.Where(t => tankIds.Contains(t.Id)).OrderBy(t => t.Code).Select(t => t.Code).ToListAsync(cancel);
                await WriteAsync(db, flags.Key, recipients, codes, now, cancel);
            }
        }
    }

    public void Committed() => outbox.Wake();

    private async Task WriteAsync(
        HatcheryDb db, Guid programme, IReadOnlyList<Recipient> recipients, IReadOnlyList<string> codes, DateTime now, CancellationToken cancel)
    {
        var latest = await LatestSlotsAsync(db, programme, now, cancel);
        var slots = codes.Select(code => (Code: code, Slot: Slot(latest.TryGetValue(code, out var last) ? last : null, now))).Where(s => s.Slot is not null);
        foreach (var slot in slots.GroupBy(s => s.Slot!.Value, s => s.Code))
        {
            foreach (var tanks in UrgentKey.Parts(slot))
            {
                foreach (var to in recipients)
                {
                    var phrases = LetterPhrases.In(to.Language);
                    await outbox.WriteAsync(
                        db,
                        new NewLetter(
                            new UrgentKey(slot.Key, tanks, to.PersonId).ToString(), programme, to.PersonId, to.Email,
                            phrases.CannotWait(string.Join(", ", tanks.Take(5))), $"{phrases.WholeRound}: {new Uri(options.PublicUrl, "round")}", slot.Key),
                        cancel);
                }
            }
        }
    }

    /// <summary>Now, or when the hour since the last mail is over; null when one is on its way that will say this too.</summary>
    private static DateTime? Slot(DateTime? latest, DateTime now) => latest is not { } last || last + Apart <= now ? now
        : last > now ? null
        : last + Apart;

    /// <summary>For each tank when its latest mail was or is meant to go, to whomever. A mail that was left unsent does not count.</summary>
    private static async Task<Dictionary<string, DateTime>> LatestSlotsAsync(HatcheryDb db, Guid programme, DateTime now, CancellationToken cancel)
    {
        var since = now - Apart - Apart;
        var keys = await db.OutgoingLetters
            .Where(l => l.ProgrammeId == programme && l.WrittenAt > since && l.State != LetterState.GivenUp && l.Key.StartsWith(UrgentKey.Beginning))
            .Select(l => l.Key).ToListAsync(cancel);
        return keys.Select(UrgentKey.Read).OfType<UrgentKey>()
            .SelectMany(k => k.Tanks.Select(t => (Tank: t, k.Slot)))
            .GroupBy(t => t.Tank)
            .ToDictionary(g => g.Key, g => g.Max(t => t.Slot));
    }
}
