using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>A lot and the tanks that hold it or are promised it.</summary>
public sealed record LotHolders(EggLot Lot, int Allotted, int Received, IReadOnlyList<string> Tanks);

public sealed record ListedSchool(School School, int Tanks, int Closures);

/// <summary>What a season consists of: its days, schools, closures and lots.</summary>
public sealed record SeasonParts(
    SeasonAtHand Season, IReadOnlyList<ListedSchool> Schools, IReadOnlyList<ListedClosure> Closures, IReadOnlyList<LotHolders> Lots, int Tanks)
{
    /// <summary>The programme's seasons beside this one.</summary>
    public IReadOnlyList<Season> Others { get; init; } = [];
}

public sealed class SeasonOverview(IDbContextFactory<HatcheryDb> databases, EditClosures closures, TimeProvider time)
{
    public async Task<SeasonParts> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var listed = await closures.ListAsync(user.ProgrammeId, cancel);
        var schools = await db.Schools.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).OrderBy(s => s.Name).ToListAsync(cancel);
        var tanks = await (
            from tank in db.Tanks.AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            where tank.ProgrammeId == user.ProgrammeId
            select new { tank.Id, tank.Code, room.SchoolId }).ToListAsync(cancel);
        var bySchool = tanks.CountBy(t => t.SchoolId).ToDictionary();
        var codes = tanks.ToDictionary(t => t.Id, t => t.Code);
        return new SeasonParts(
            season,
            [.. schools.Select(s => new ListedSchool(s, bySchool.GetValueOrDefault(s.Id), listed.Count(c => c.Closure.SchoolId == s.Id)))],
            listed,
            season.Season is { } current ? await LotsAsync(db, current.Id, codes, cancel) : [],
            tanks.Count)
        {
            Others = await db.Seasons.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId && (season.Season == null || s.Id != season.Season.Id)).OrderBy(s => s.StartsOn).ToListAsync(cancel),
        };
    }

    private static async Task<IReadOnlyList<LotHolders>> LotsAsync(
        HatcheryDb db, Guid seasonId, Dictionary<Guid, string> codes, CancellationToken cancel)
    {
        var lots = await db.EggLots.AsNoTracking().Where(l => l.SeasonId == seasonId).OrderBy(l => l.Code).ToListAsync(cancel);
        var allotted = (await db.Allotments.AsNoTracking().Where(a => a.SeasonId == seasonId).ToListAsync(cancel)).ToLookup(a => a.LotId);
        var received = (await db.Receipts.AsNoTracking().Where(r => r.SeasonId == seasonId).ToListAsync(cancel)).ToLookup(r => r.LotId);
        var holders = await LotsInTanks.LoadAsync(db, seasonId, cancel);
        return
        [
            .. lots.Select(lot => new LotHolders(
                lot, allotted[lot.Id].Sum(a => a.Eggs), received[lot.Id].Sum(r => r.Eggs),
                [.. codes.Where(c => holders.Of(c.Key)?.Id == lot.Id).Select(c => c.Value).Order(StringComparer.Ordinal)])),
        ];
    }
}
