using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests;

/// <summary>
/// Puts the morning mail into the outbox, once a local day. A portal that was down at the hour does it when it comes back while it is still
/// morning. All of a programme's mails of a day are saved as one: whoever comes second, also another portal, finds them written.
/// </summary>
public sealed class MorningDigest(IDbContextFactory<HatcheryDb> databases, TanksideOptions options, Outbox outbox, TimeProvider time)
{
    private static readonly TimeOnly Noon = new(12, 0);

    /// <summary>A digest set to the afternoon has this long.</summary>
    private static readonly TimeSpan AtLeast = TimeSpan.FromHours(3);

    /// <summary>Writes what is due; gives how many mails.</summary>
    public async Task<int> WriteDueAsync(CancellationToken cancel)
    {
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var written = 0;
        foreach (var programme in await db.Programmes.AsNoTracking().ToListAsync(cancel))
        {
            var clock = ProgrammeClock.Of(programme.TimeZone);
            var day = clock.Day(now);
            var (due, until) = Window(clock, day, programme.DigestAt);
            if (now >= due && now < until)
            {
                written += await WriteAsync(programme.Id, day, cancel);
            }
        }

        return written;
    }

    /// <summary>From when to when a day's mail may go out.</summary>
    internal static (DateTime Due, DateTime Until) Window(ProgrammeClock clock, DateOnly day, TimeOnly at)
    {
        var due = clock.Utc(day, at);
        var (noon, end) = (clock.Utc(day, Noon), clock.Utc(day.AddDays(1), TimeOnly.MinValue));
        var until = noon > due + AtLeast ? noon : due + AtLeast;
        return (due, until < end ? until : end);
    }

    private async Task<int> WriteAsync(Guid programme, DateOnly day, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var beginning = DigestKey.Beginning(day, programme);
        if (await db.OutgoingLetters.AnyAsync(l => l.Key.StartsWith(beginning), cancel) || !await HasAnythingToTellAsync(db, programme, cancel))
        {
            return 0;
        }

        var recipients = await Recipients.OfDigestAsync(db, options, programme, cancel);

        // Two portals may write the same letters at once. One after the other and in one order, the second meets the first's first letter and
        // waits there; in an order of their own each could wait for the other.
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        try
        {
            foreach (var to in recipients.OrderBy(r => r.PersonId))
            {
                var phrases = LetterPhrases.In(to.Language);
                await outbox.WriteAsync(
                    db,
                    new NewLetter(new DigestKey(day, programme, to.PersonId).ToString(), programme, to.PersonId, to.Email, phrases.MorningRound, $"{phrases.WholeRound}: {new Uri(options.PublicUrl, "round")}"),
                    cancel);
                await db.SaveChangesAsync(cancel);
            }

            await transaction.CommitAsync(cancel);
        }
        catch (DbUpdateException e) when (e.IsUniqueViolation())
        {
            return 0; // Another portal wrote them.
        }

        outbox.Wake();
        return recipients.Count;
    }

    /// <summary>Out of season, with no fish anywhere and nothing flagged, no mail says so every morning.</summary>
    private static async Task<bool> HasAnythingToTellAsync(HatcheryDb db, Guid programme, CancellationToken cancel) =>
        await db.Tanks.AnyAsync(t => t.ProgrammeId == programme && t.ClosedAt == null && db.Receipts.Any(r => r.TankId == t.Id), cancel)
        || await db.Flags.AnyAsync(f => f.ProgrammeId == programme && f.State == FlagState.Open, cancel);
}
