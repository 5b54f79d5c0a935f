using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Lots;

/// <summary>Eggs of a lot promised to a tank, and what came of them.</summary>
/// <param name="Received">Eggs received of this lot, the dead ones included; 0 before the hand-over.</param>
public sealed record LotTank(string Code, string School, string Room, int Allotted, DateOnly? DeliveryOn, int Received, int DeadOnArrival, DateTime? ReceivedAt, string? Run);

/// <summary>A lot with where its eggs are.</summary>
/// <param name="Stands">How far its eggs would be today, had they stayed at the hatchery.</param>
public sealed record ListedLot(EggLot Lot, IReadOnlyList<LotTank> Tanks, DevelopmentNow Stands)
{
    public int Allotted => Tanks.Sum(t => t.Allotted);

    public int Received => Tanks.Sum(t => t.Received);
}

public sealed record LotsAtHand(SeasonAtHand Season, IReadOnlyList<ListedLot> Lots)
{
    public ListedLot? Find(string code) => Lots.SingleOrDefault(l => l.Lot.Code == code);
}

/// <summary>The season's lots with their tanks.</summary>
public sealed class SeasonLots(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<LotsAtHand> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var hand = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        if (hand.Season is not { } season)
        {
            return new LotsAtHand(hand, []);
        }

        var lots = await db.EggLots.AsNoTracking().Where(l => l.SeasonId == season.Id).OrderBy(l => l.Code).ToListAsync(cancel);
        var tables = await OwnTables.LoadAsync(db, lots, cancel);
        var tanks = await TanksAsync(db, season.Id, cancel);
        return new LotsAtHand(hand, [.. lots.Select(lot => new ListedLot(lot, [.. tanks[lot.Id]], Stand(lot, hand.Today, tables)))]);
    }

    private static async Task<ILookup<Guid, LotTank>> TanksAsync(HatcheryDb db, Guid seasonId, CancellationToken cancel)
    {
        var places = await (
            from tank in db.Tanks.AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where db.Allotments.Any(a => a.SeasonId == seasonId && a.TankId == tank.Id) || db.Receipts.Any(r => r.SeasonId == seasonId && r.TankId == tank.Id)
            select new { tank.Id, tank.Code, School = school.Name, Room = room.Name }).ToDictionaryAsync(t => t.Id, cancel);
        var allotted = await db.Allotments.AsNoTracking().Where(a => a.SeasonId == seasonId).ToListAsync(cancel);
        var received = (await db.Receipts.AsNoTracking().Where(r => r.SeasonId == seasonId).ToListAsync(cancel)).ToLookup(r => (r.LotId, r.TankId));
        var pairs = allotted.Select(a => (a.LotId, a.TankId)).Concat(received.Select(r => r.Key)).Distinct();
        return pairs.Select(pair =>
        {
            var (place, promise, came) = (places[pair.TankId], allotted.SingleOrDefault(a => a.TankId == pair.TankId && a.LotId == pair.LotId), received[pair].ToList());
            return (pair.LotId, Tank: new LotTank(
                place.Code, place.School, place.Room, promise?.Eggs ?? 0, promise?.DeliveryOn, came.Sum(r => r.Eggs), came.Sum(r => r.DeadOnArrival),
                came.Count > 0 ? came.Min(r => r.At) : null, came.Select(r => r.Run).FirstOrDefault(r => r is not null)));
        }).OrderBy(t => t.Tank.Code, StringComparer.Ordinal).ToLookup(t => t.LotId, t => t.Tank);
    }

    private static DevelopmentNow Stand(EggLot lot, DateOnly today, OwnTables tables) => TankDevelopment.On(
        today, tables.ProfileOf(lot, today, null), [], lot.HatcheryMeanC);
}
