using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>What each tank of some lots has lost so far, from the daily summaries: the prior of its siblings.</summary>
public sealed class SiblingRecord
{
    private readonly Dictionary<Guid, Dictionary<Guid, SiblingLosses>> byLot = [];

    public static async Task<SiblingRecord> LoadAsync(HatcheryDb db, List<Guid> lotIds, CancellationToken cancel)
    {
        var received = await db.Receipts.AsNoTracking().Where(r => lotIds.Contains(r.LotId))
            .Select(r => new { r.LotId, r.TankId, Fish = r.Eggs - r.DeadOnArrival, r.At }).ToListAsync(cancel);
        // Not by the tanks' ids: a lot may have thousands, and each would be a parameter.
        var lost = await db.TankDays.AsNoTracking()
            .Where(d => db.Receipts.Any(r => r.TankId == d.TankId && lotIds.Contains(r.LotId)) && (d.DeadEggs != null || d.DeadAlevins != null || d.DeadFry != null))
            .GroupBy(d => d.TankId)
            .Select(g => new { TankId = g.Key, Dead = g.Sum(d => (d.DeadEggs ?? 0) + (d.DeadAlevins ?? 0) + (d.DeadFry ?? 0)), Last = g.Max(d => d.Day) })
            .ToDictionaryAsync(x => x.TankId, cancel);

        var result = new SiblingRecord();
        foreach (var r in received)
        {
            if (!result.byLot.TryGetValue(r.LotId, out var lot))
            {
                result.byLot[r.LotId] = lot = [];
            }

            // The instant's UTC day is near enough: a day more or less of exposure does not move a lot's rate.
            var days = lost.TryGetValue(r.TankId, out var l) ? Math.Max(1, l.Last.DayNumber - DateOnly.FromDateTime(r.At).DayNumber + 1) : 0;
            lot[r.TankId] = new SiblingLosses(l?.Dead ?? 0, (double)Math.Max(0, r.Fish) * days);
        }

        return result;
    }

    /// <summary>The losses of the lot's other tanks.</summary>
    public SiblingLosses Of(Guid lotId, Guid tankId)
    {
        var others = byLot[lotId].Where(t => t.Key != tankId).Select(t => t.Value).ToList();
        return new SiblingLosses(others.Sum(o => o.Deaths), others.Sum(o => o.FishDays));
    }
}
