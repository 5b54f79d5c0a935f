using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

public sealed record ListedRelease(Release Release, string Tank, string School, string Site, string Water, string Permit, string? WithdrawnBy);

/// <summary>A tank that fish can be released from.</summary>
public sealed record ReleasableTank(Guid Id, string Code, string Place, EggLot? Lot, int Fish);

/// <summary>The season's releases that a person may see, and all that a new one is chosen from.</summary>
public sealed record ReleasesAtHand(
    SeasonAtHand Season, IReadOnlyList<ListedRelease> Releases, IReadOnlyList<PermitUse> Permits, IReadOnlyList<ReleaseSite> Sites,
    IReadOnlyList<ReleasableTank> Tanks, int ReportDays);

public sealed class SeasonReleases(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<ReleasesAtHand> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var seasonId = season.Season?.Id ?? Guid.Empty;
        return new ReleasesAtHand(
            season,
            await ListAsync(db, user, seasonId, cancel),
            await PermitUse.LoadAsync(db, user.ProgrammeId, cancel),
            await db.ReleaseSites.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).OrderBy(s => s.Name).ToListAsync(cancel),
            await TanksAsync(db, user, seasonId, cancel),
            await ReportDays.OfAsync(db, user.ProgrammeId, cancel));
    }

    /// <summary>Those who may answer for a permit's reports, by name.</summary>
    public async Task<IReadOnlyList<(Guid Id, string Name)>> ReportersAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var rows = await (
            from member in KeepPermit.SendsReports(db, user.ProgrammeId)
            join person in db.Users on member.PersonId equals person.Id
            orderby person.Name, person.Id
            select new { person.Id, person.Name }).ToListAsync(cancel);
        return [.. rows.Select(r => (r.Id, r.Name))];
    }

    private static async Task<IReadOnlyList<ListedRelease>> ListAsync(HatcheryDb db, CurrentUser user, Guid seasonId, CancellationToken cancel)
    {
        var rows = await (
            from release in db.Releases.AsNoTracking()
            join tank in TanksInReach.Of(db, user) on release.TankId equals tank.Id
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join site in db.ReleaseSites on release.SiteId equals site.Id
            join permit in db.Permits on release.PermitId equals permit.Id
            where release.SeasonId == seasonId
            orderby release.At descending, tank.Code
            select new { release, tank.Code, School = school.Name, Site = site.Name, site.Water, permit.Number }).ToListAsync(cancel);
        var withdrawers = rows.Select(r => r.release.WithdrawnBy).OfType<Guid>().Distinct().ToList();
        var names = await db.Users.Where(p => withdrawers.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        return
        [
            .. rows.Select(r => new ListedRelease(
                r.release, r.Code, r.School, r.Site, r.Water, r.Number,
                r.release.WithdrawnBy is { } by ? names.GetValueOrDefault(by) : null)),
        ];
    }

    private static async Task<IReadOnlyList<ReleasableTank>> TanksAsync(HatcheryDb db, CurrentUser user, Guid seasonId, CancellationToken cancel)
    {
        var rows = await (
            from tank in TanksInReach.Of(db, user).AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where tank.ClosedAt == null
            orderby tank.Code
            select new { tank.Id, tank.Code, Place = school.Name + ", " + room.Name }).ToListAsync(cancel);
        var lots = await LotsInTanks.LoadAsync(db, seasonId, cancel);
        var entries = (await db.Ledger.AsNoTracking().Where(e => e.SeasonId == seasonId).ToListAsync(cancel)).ToLookup(e => e.TankId);
        return
        [
            .. rows.Select(r => new ReleasableTank(
                r.Id, r.Code, r.Place, lots.HeldBy(r.Id), TankBalance.Of(entries[r.Id], closed: false).StillInTank)),
        ];
    }
}
