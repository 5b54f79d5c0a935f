using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>How many fish the ledger leaves in each of some tanks, for the season of their newest eggs.</summary>
public sealed class FishInTanks
{
    private readonly Dictionary<Guid, TankBalance> balances = [];

    public static async Task<FishInTanks> LoadAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        var newest = db.Receipts.Where(r => tankIds.Contains(r.TankId) && !db.Receipts.Any(later => later.TankId == r.TankId && later.At > r.At))
            .Select(r => new { r.TankId, r.SeasonId }).Distinct();
        var lines = await (
            from season in newest
            join tank in db.Tanks on season.TankId equals tank.Id
            join entry in db.Ledger.AsNoTracking() on new { season.TankId, season.SeasonId } equals new { entry.TankId, entry.SeasonId }
            select new { Entry = entry, Closed = tank.ClosedAt != null }).ToListAsync(cancel);
        var result = new FishInTanks();
        foreach (var tank in lines.GroupBy(l => l.Entry.TankId))
        {
            result.balances[tank.Key] = TankBalance.Of(tank.Select(l => l.Entry), tank.First().Closed);
        }

        return result;
    }

    public int Of(Guid tankId) => balances.TryGetValue(tankId, out var balance) ? balance.StillInTank : 0;
}
