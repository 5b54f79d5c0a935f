using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Releases.Permits;
using Tankside.Science.Eggs;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>The releases and permits of an account.</summary>
internal static class SeasonFoldReleases
{
    /// <summary>Releases that stand, in the order of tank and day.</summary>
    public static async Task<IReadOnlyList<ReleaseTotals>> LoadAsync(HatcheryDb db, Guid programmeId, Guid seasonId, ProgrammeClock clock, CancellationToken cancel)
    {
        var days = await ReportDays.OfAsync(db, programmeId, cancel);
        var rows = await (
            from release in db.Releases.AsNoTracking()
            join tank in db.Tanks on release.TankId equals tank.Id
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join site in db.ReleaseSites on release.SiteId equals site.Id
            join permit in db.Permits on release.PermitId equals permit.Id
            where release.SeasonId == seasonId && release.WithdrawnAt == null
            orderby tank.Code, release.At, release.Id
            select new { release, tank.Code, School = school.Name, Site = site.Name, site.Water, permit.Number, permit.Species }).ToListAsync(cancel);
        return [.. rows.Select(r => new ReleaseTotals(
            r.Code, r.School, SpeciesCodes.CodeOf(r.Species), r.Site, r.Water, r.Number, clock.Day(r.release.At), r.release.Fish, r.release.About,
            clock.Day(r.release.At.AddDays(days)), r.release.ReportedAt is { } sent ? clock.Day(sent) : null))];
    }

    /// <summary>Permits that were in force in the season, and those that were used in it.</summary>
    public static async Task<IReadOnlyList<PermitTotals>> PermitsAsync(HatcheryDb db, Guid programmeId, Season season, CancellationToken cancel)
    {
        var used = await db.Releases.Where(r => r.SeasonId == season.Id && r.WithdrawnAt == null).Select(r => r.PermitId).Distinct().ToListAsync(cancel);
        return [.. (await PermitUse.LoadAsync(db, programmeId, cancel))
            .Where(u => used.Contains(u.Permit.Id) || (u.Permit.From <= season.EndsOn && u.Permit.To >= season.StartsOn))
            .Select(u => new PermitTotals(
                u.Permit.Number, SpeciesCodes.CodeOf(u.Permit.Species), u.Permit.Water, u.Permit.Fish, u.Permit.From, u.Permit.To, u.Released))];
    }
}
