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
/// <param name="Nil">Permits under which nothing was released in the season, the first due first.</param>
public sealed record AgencyDesk(
    SeasonTotals Totals, DateOnly Today, int ReportDays, IReadOnlyList<ReleaseTotals> Late, IReadOnlyList<ReleaseTotals> NotDue, IReadOnlyList<NilReport> Nil)
{
    public IEnumerable<ReleaseTotals> NotSent => Late.Where(r => r.ReportedOn is null);

    public IEnumerable<NilReport> NilNotSent => Nil.Where(n => n.SentOn is null && n.DueOn < Today);

    /// <summary>Reports of both kinds that should be here and are not.</summary>
    public int Missing => NotSent.Count() + NilNotSent.Count();

    public static int DaysLate(ReleaseTotals release, DateOnly today) => (release.ReportedOn ?? today).DayNumber - release.ReportDueOn.DayNumber;
}

/// <summary>The report that nothing was released under a permit.</summary>
/// <param name="SentOn">Null while it is still to be sent.</param>
public sealed record NilReport(string Permit, string Water, DateOnly DueOn, DateOnly? SentOn);

public sealed class AgencyAccount(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>Null when there is no such season. Reports are as they are now, sealed or not: they may be sent after an account is closed.</summary>
    public async Task<AgencyDesk?> LoadAsync(Guid programmeId, string? name, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var clock = Hatchery.People.ProgrammeClock.Of(programme.TimeZone);
        var today = clock.Day(time.GetUtcNow().UtcDateTime);
        if (await TotalsOfSeason.FindAsync(db, programmeId, name, today, cancel) is not { } season)
        {
            return null;
        }

        var totals = await SeasonFold.LoadAsync(db, programme, season, null, cancel);
        var used = totals.Releases.Select(r => r.Permit).ToHashSet();
        var days = await ReportDays.OfAsync(db, programmeId, cancel);
        var permits = await db.Permits.AsNoTracking().Where(p => p.ProgrammeId == programmeId).ToDictionaryAsync(p => p.Number, cancel);
        return new AgencyDesk(
            totals, today, days,
            [.. totals.Releases.Where(r => r.IsLate(today)).OrderByDescending(r => AgencyDesk.DaysLate(r, today)).ThenBy(r => r.Tank, StringComparer.Ordinal)],
            [.. totals.Releases.Where(r => r.ReportedOn is null && !r.IsLate(today)).OrderBy(r => r.ReportDueOn)],
            [.. totals.Permits.Where(p => !used.Contains(p.Number)).Select(p => permits[p.Number]).OrderBy(p => p.To).ThenBy(p => p.Number, StringComparer.Ordinal).Select(p => new NilReport(
                p.Number, p.Water, p.To.AddDays(days), p.NilReportedAt is { } sent ? clock.Day(sent) : null))]);
    }
}
