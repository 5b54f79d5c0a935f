using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>Which lot is in which tank of a season: what came wins over what was promised, and fish that were moved bring their lot along.</summary>
public sealed class LotsInTanks
{
    private readonly Dictionary<Guid, EggLot> promised = [];
    private readonly Dictionary<Guid, EggLot> held = [];

    /// <summary>The lot that is or was in the tank; null when nothing ever came.</summary>
    public EggLot? HeldBy(Guid tankId) => held.GetValueOrDefault(tankId);

    /// <summary>The lot in the tank, or the one promised to it.</summary>
    public EggLot? Of(Guid tankId) => HeldBy(tankId) ?? promised.GetValueOrDefault(tankId);

    public static async Task<LotsInTanks> LoadAsync(HatcheryDb db, Guid seasonId, CancellationToken cancel)
    {
        var lots = await db.EggLots.AsNoTracking().Where(l => l.SeasonId == seasonId).ToDictionaryAsync(l => l.Id, cancel);
        var result = new LotsInTanks();
        foreach (var promise in await db.Allotments.AsNoTracking().Where(a => a.SeasonId == seasonId).ToListAsync(cancel))
        {
            result.promised[promise.TankId] = lots[promise.LotId];
        }

        foreach (var receipt in await db.Receipts.AsNoTracking().Where(r => r.SeasonId == seasonId).OrderBy(r => r.At).ToListAsync(cancel))
        {
            result.held[receipt.TankId] = lots[receipt.LotId];
        }

        result.Follow(await db.Ledger.AsNoTracking()
            .Where(e => e.SeasonId == seasonId && e.TransferId != null && e.CorrectsId == null).ToListAsync(cancel));
        return result;
    }

    /// <summary>Along the moves, in the order they happened, so that fish moved twice still have their lot.</summary>
    private void Follow(List<LedgerEntry> moves)
    {
        var from = moves.Where(e => e.Kind == LedgerKind.TransferredOut).ToLookup(e => e.TransferId!.Value, e => e.TankId);
        foreach (var arrival in moves.Where(e => e.Kind == LedgerKind.TransferredIn).OrderBy(e => e.At).ThenBy(e => e.Id))
        {
            if (from[arrival.TransferId!.Value].Select(Of).FirstOrDefault(l => l is not null) is { } lot)
            {
                held.TryAdd(arrival.TankId, lot);
            }
        }
    }
}
