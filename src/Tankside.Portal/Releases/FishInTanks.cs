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
        var tanks = await db.Tanks.AsNoTracking().Where(t => tankIds.Contains(t.Id)).Select(t => new
        {
            t.Id,
            Closed = t.ClosedAt != null,
            Season = db.Receipts.Where(r => r.TankId == t.Id).OrderByDescending(r => r.At).Select(r => (Guid?)r.SeasonId).FirstOrDefault(),
        }).ToListAsync(cancel);
        var entries = (await db.Ledger.AsNoTracking().Where(e => tankIds.Contains(e.TankId)).ToListAsync(cancel)).ToLookup(e => (e.TankId, e.SeasonId));
        var result = new FishInTanks();
        foreach (var tank in tanks)
        {
            if (tank.Season is { } season)
            {
                result.balances[tank.Id] = TankBalance.Of(entries[(tank.Id, season)], tank.Closed);
            }
        }

        return result;
    }

    public int Of(Guid tankId) => balances.TryGetValue(tankId, out var balance) ? balance.StillInTank : 0;
}
