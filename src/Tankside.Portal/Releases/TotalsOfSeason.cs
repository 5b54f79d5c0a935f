using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Science.Eggs;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>Folds a season's ledger into its account: one line for each tank that was allotted or received eggs.</summary>
public sealed class TotalsOfSeason(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>The season by name, or the current one: that of today, else the newest. Null when there is none.</summary>
    /// <param name="school">Only this school's tanks, for those to whom no others exist.</param>
    public async Task<SeasonTotals?> LoadAsync(Guid programmeId, string? seasonName, CancellationToken cancel, Guid? school = null)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var clock = ProgrammeClock.Of(programme.TimeZone);
        return await FindAsync(db, programmeId, seasonName, clock.Day(time.GetUtcNow().UtcDateTime), cancel) is { } season
            ? new SeasonTotals(programme.Name, season.Name, await TanksAsync(db, season, clock, school, cancel))
            : null;
    }

    /// <summary>Names of the programme's seasons, newest first.</summary>
    public async Task<IReadOnlyList<string>> NamesAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Seasons.Where(s => s.ProgrammeId == programmeId).OrderByDescending(s => s.StartsOn).Select(s => s.Name).ToListAsync(cancel);
    }

    public static async Task<Season?> FindAsync(HatcheryDb db, Guid programmeId, string? name, DateOnly today, CancellationToken cancel)
    {
        var seasons = await db.Seasons.AsNoTracking().Where(s => s.ProgrammeId == programmeId).OrderBy(s => s.StartsOn).ToListAsync(cancel);
        return name is null
            ? seasons.LastOrDefault(s => s.StartsOn <= today && today <= s.EndsOn) ?? seasons.LastOrDefault()
            : seasons.SingleOrDefault(s => s.Name == name);
    }

    private static async Task<IReadOnlyList<TankTotals>> TanksAsync(
        HatcheryDb db, Season season, ProgrammeClock clock, Guid? onlySchool, CancellationToken cancel)
    {
        var rows = await (
            from tank in db.Tanks.AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where (onlySchool == null || school.Id == onlySchool)
                && (db.Receipts.Any(r => r.TankId == tank.Id && r.SeasonId == season.Id)
                    || db.Allotments.Any(a => a.TankId == tank.Id && a.SeasonId == season.Id)
                    || db.Ledger.Any(e => e.TankId == tank.Id && e.SeasonId == season.Id))
            orderby tank.Code
            select new { tank.Id, tank.Code, tank.ClosedAt, Room = room.Name, School = school.Name }).ToListAsync(cancel);
        var entries = (await db.Ledger.AsNoTracking().Where(e => e.SeasonId == season.Id).ToListAsync(cancel)).ToLookup(e => e.TankId);
        var lots = await LotsInTanks.LoadAsync(db, season.Id, cancel);
        var hatched = await HatchDatesAsync(db, [.. rows.Select(r => r.Id)], season, cancel);
        var releases = await ReleasesAsync(db, season.Id, cancel);

        return [.. rows.Select(row =>
        {
            var lot = lots.Of(row.Id);
            var own = releases[row.Id].ToList();
            return new TankTotals(
                row.School, row.Room, row.Code, lot?.Code ?? "", lot is null ? "" : SpeciesCodes.CodeOf(lot.Species),
                TankBalance.Of(entries[row.Id], row.ClosedAt is not null),
                hatched.TryGetValue(row.Id, out var day) ? day : null,
                own.Count == 0 ? null : own.Min(r => clock.Day(r.At)),
                Joined(own.Select(r => r.Site)), Joined(own.Select(r => r.Permit)));
        })];
    }

    private static string? Joined(IEnumerable<string> names) =>
        names.Distinct().Order(StringComparer.Ordinal).ToList() is { Count: > 0 } several ? string.Join("; ", several) : null;

    /// <summary>The first day on which half or more were reported hatched.</summary>
    private static async Task<Dictionary<Guid, DateOnly>> HatchDatesAsync(HatcheryDb db, List<Guid> tankIds, Season season, CancellationToken cancel)
    {
        Share[] halfOrMore = [Share.Half, Share.Most, Share.All];
        return await db.TankDays.AsNoTracking()
            .Where(d => tankIds.Contains(d.TankId) && d.Day >= season.StartsOn && d.Day <= season.EndsOn && d.Hatched != null && halfOrMore.Contains(d.Hatched.Value))
            .GroupBy(d => d.TankId)
            .Select(g => new { g.Key, Day = g.Min(d => d.Day) })
            .ToDictionaryAsync(x => x.Key, x => x.Day, cancel);
    }

    private sealed record ReleaseName(Guid TankId, DateTime At, string Site, string Permit);

    private static async Task<ILookup<Guid, ReleaseName>> ReleasesAsync(HatcheryDb db, Guid seasonId, CancellationToken cancel) =>
        (await (
            from release in db.Releases
            join site in db.ReleaseSites on release.SiteId equals site.Id
            join permit in db.Permits on release.PermitId equals permit.Id
            where release.SeasonId == seasonId && release.WithdrawnAt == null
            select new ReleaseName(release.TankId, release.At, site.Name, permit.Number)).ToListAsync(cancel)).ToLookup(r => r.TankId);
}
