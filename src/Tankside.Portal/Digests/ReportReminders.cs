using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Releases.Due;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests;

/// <summary>
/// Reminds of reports to the agency, some days before they are due and once more when they are late: the leads, and whoever answers for the
/// permit. What it is about is the letter's key, so each reminder is written once, whichever portal comes first.
/// </summary>
public sealed class ReportReminders(IDbContextFactory<HatcheryDb> databases, TanksideOptions options, Outbox outbox, TimeProvider time)
{
    /// <summary>A report this long overdue is in the morning round every day; a mail about it after the portal was down for weeks helps nobody.</summary>
    private const int LongestLateDays = 14;

    /// <summary>Writes what is due; gives how many mails.</summary>
    public async Task<int> WriteDueAsync(CancellationToken cancel)
    {
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var written = 0;
        foreach (var programme in await db.Programmes.AsNoTracking().ToListAsync(cancel))
        {
            var clock = ProgrammeClock.Of(programme.TimeZone);
            var (due, until) = MorningDigest.Window(clock, clock.Day(now), programme.DigestAt);
            if (now >= due && now < until)
            {
                written += await WriteAsync(programme, cancel);
            }
        }

        return written;
    }

    private async Task<int> WriteAsync(Programme programme, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var reports = await ReportsDue.LoadAsync(db, programme.Id, time, cancel);
        var before = await RemindDays.OfAsync(db, programme.Id, cancel);
        var today = reports.Season.Today;
        var letters = new List<NewLetter>();
        foreach (var group in reports.Open.Where(r => r.DaysLeft(today) <= before && r.DaysLeft(today) >= -LongestLateDays).GroupBy(r => (r.Permit.Id, r.DueOn)))
        {
            var permit = group.First().Permit;
            foreach (var to in await Recipients.OfReportsAsync(db, options, programme.Id, permit.ResponsibleId, cancel))
            {
                var key = new ReminderKey(group.First().DaysLeft(today) < 0, permit.Id, group.Key.DueOn, to.PersonId);
                var (subject, text) = ReminderTexts.Of([.. group], today, programme.Name, options.PublicUrl);
                letters.Add(new NewLetter(key.ToString(), programme.Id, to.PersonId, to.Email, subject, text));
            }
        }

        // In one order and one after the other, as the morning's letters are: portals that write at once then wait for each other one way only.
        var written = 0;
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        try
        {
            foreach (var letter in letters.OrderBy(l => l.Key, StringComparer.Ordinal))
            {
                written += await outbox.WriteAsync(db, letter, cancel) ? 1 : 0;
                await db.SaveChangesAsync(cancel);
            }

            await transaction.CommitAsync(cancel);
        }
        catch (DbUpdateException e) when (e.IsUniqueViolation())
        {
            return 0; // Another portal wrote them; what it left out is written at the next look.
        }

        if (written == 0)
        {
            return 0;
        }

        outbox.Wake();
        return written;
    }
}
