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
        var closed = await db.Tanks.Where(t => tankIds.Contains(t.Id) && t.ClosedAt != null).Select(t => t.Id).ToListAsync(cancel);
        var receipts = await db.Receipts.AsNoTracking().Where(r => tankIds.Contains(r.TankId))
            .Select(r => new { r.TankId, r.SeasonId, r.At }).ToListAsync(cancel);
        var entries = (await db.Ledger.AsNoTracking().Where(e => tankIds.Contains(e.TankId)).ToListAsync(cancel)).ToLookup(e => (e.TankId, e.SeasonId));
        var result = new FishInTanks();
        foreach (var newest in receipts.GroupBy(r => r.TankId).Select(g => g.MaxBy(r => r.At)!))
        {
            result.balances[newest.TankId] = TankBalance.Of(entries[(newest.TankId, newest.SeasonId)], closed.Contains(newest.TankId));
        }

        return result;
    }

    public int Of(Guid tankId) => balances.TryGetValue(tankId, out var balance) ? balance.StillInTank : 0;
}
