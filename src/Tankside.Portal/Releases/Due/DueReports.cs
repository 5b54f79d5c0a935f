using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases.Permits;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Due;

/// <summary>A report that the agency waits for.</summary>
/// <param name="DueOn">The last day on which it is in time.</param>
/// <param name="Release">Null for a permit on which nothing was released: that has to be reported too.</param>
/// <param name="Fish">0 for a nil report.</param>
public sealed record DueReport(Permit Permit, DateOnly DueOn, Guid? Release, DateOnly? ReleasedOn, int Fish, string? Tank, string? School, string? Site)
{
    public bool IsNil => Release is null;

    /// <summary>Days left on <paramref name="today"/>; negative when it is late.</summary>
    public int DaysLeft(DateOnly today) => DueOn.DayNumber - today.DayNumber;
}

/// <summary>All reports that are still to be sent, the most urgent first, and the nil reports that were.</summary>
public sealed record ReportsDue(SeasonAtHand Season, int Days, IReadOnlyList<DueReport> Open, IReadOnlyList<Permit> NilReported)
{
    public static async Task<ReportsDue> LoadAsync(HatcheryDb db, Guid programmeId, TimeProvider time, CancellationToken cancel)
    {
        var season = await SeasonAtHand.LoadAsync(db, programmeId, time, cancel);
        var days = await ReportDays.OfAsync(db, programmeId, cancel);
        var rows = await (
            from release in db.Releases.AsNoTracking()
            join permit in db.Permits.AsNoTracking() on release.PermitId equals permit.Id
            join site in db.ReleaseSites on release.SiteId equals site.Id
            join tank in db.Tanks on release.TankId equals tank.Id
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where permit.ProgrammeId == programmeId && release.WithdrawnAt == null && release.ReportedAt == null
            select new { release, permit, Site = site.Name, tank.Code, School = school.Name }).ToListAsync(cancel);
        var unused = await db.Permits.AsNoTracking()
            .Where(p => p.ProgrammeId == programmeId && !db.Releases.Any(r => r.PermitId == p.Id && r.WithdrawnAt == null)).OrderBy(p => p.Number).ToListAsync(cancel);
        var open = rows.Select(r => (Day: season.Clock.Day(r.release.At), Row: r))
            .Select(r => new DueReport(r.Row.permit, r.Day.AddDays(days), r.Row.release.Id, r.Day, r.Row.release.Fish, r.Row.Code, r.Row.School, r.Row.Site))
            .Concat(unused.Where(p => p.NilReportedAt is null).Select(p => new DueReport(p, p.To.AddDays(days), null, null, 0, null, null, null)))
            .OrderBy(r => r.DueOn).ThenBy(r => r.Permit.Number, StringComparer.Ordinal).ThenBy(r => r.Tank, StringComparer.Ordinal);
        return new ReportsDue(season, days, [.. open], [.. unused.Where(p => p.NilReportedAt is not null)]);
    }
}
