using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Flags.InTheTank;

/// <summary>What the ledger says of a tank in the season of its last eggs.</summary>
public static class TankBalances
{
    public static async Task<TankBalance> LoadAsync(HatcheryDb db, Tank tank, CancellationToken cancel)
    {
        var season = await db.Receipts.Where(r => r.TankId == tank.Id).OrderByDescending(r => r.At)
            .Select(r => (Guid?)r.SeasonId).FirstOrDefaultAsync(cancel);
        var entries = await db.Ledger.AsNoTracking().Where(e => e.TankId == tank.Id && e.SeasonId == season).ToListAsync(cancel);
        return TankBalance.Of(entries, tank.ClosedAt is not null);
    }
}
