using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases.Permits;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Agency;

/// <summary>
/// What an agency asks of a programme: how far each permit is used, and which reports are late. Schools are named, people are not.
/// </summary>
/// <param name="Late">Releases whose report is late today, or was sent late, the longest first.</param>
/// <param name="NotDue">Releases whose report is still to come and in time.</param>
/// <param name="Nil">Permits under which nothing was released in the season.</param>
public sealed record AgencyDesk(
    SeasonTotals Totals, DateOnly Today, int ReportDays, IReadOnlyList<ReleaseTotals> Late, IReadOnlyList<ReleaseTotals> NotDue, IReadOnlyList<PermitTotals> Nil)
{
    public IEnumerable<ReleaseTotals> NotSent => Late.Where(r => r.ReportedOn is null);

    public static int DaysLate(ReleaseTotals release, DateOnly today) => (release.ReportedOn ?? today).DayNumber - release.ReportDueOn.DayNumber;
}

public sealed class AgencyAccount(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>Null when there is no such season. Reports are as they are now, sealed or not: they may be sent after an account is closed.</summary>
    public async Task<AgencyDesk?> LoadAsync(Guid programmeId, string? name, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var today = Hatchery.People.ProgrammeClock.Of(programme.TimeZone).Day(time.GetUtcNow().UtcDateTime);
        if (await TotalsOfSeason.FindAsync(db, programmeId, name, today, cancel) is not { } season)
        {
            return null;
        }

        var totals = await SeasonFold.LoadAsync(db, programme, season, null, cancel);
        var used = totals.Releases.Select(r => r.Permit).ToHashSet();
        return new AgencyDesk(
            totals, today, await ReportDays.OfAsync(db, programmeId, cancel),
            [.. totals.Releases.Where(r => r.IsLate(today)).OrderByDescending(r => AgencyDesk.DaysLate(r, today)).ThenBy(r => r.Tank, StringComparer.Ordinal)],
            [.. totals.Releases.Where(r => r.ReportedOn is null && !r.IsLate(today)).OrderBy(r => r.ReportDueOn)],
            [.. totals.Permits.Where(p => !used.Contains(p.Number))]);
    }
}
