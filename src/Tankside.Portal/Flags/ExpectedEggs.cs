using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>Eggs promised to tanks for a day, of a lot that has not come to them yet.</summary>
internal static class ExpectedEggs
{
    /// <summary>The next delivery to each tank. A promise of the day before is loaded too: which day it is depends on the time zone.</summary>
    public static async Task<Dictionary<Guid, EggsExpected>> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, DateTime now, CancellationToken cancel)
    {
        var from = DateOnly.FromDateTime(now).AddDays(-1);
        var promised = await db.Allotments.AsNoTracking()
            .Where(a => tankIds.Contains(a.TankId) && a.DeliveryOn >= from && a.Eggs > 0)
            .Where(a => !db.Receipts.Any(r => r.TankId == a.TankId && r.SeasonId == a.SeasonId && r.LotId == a.LotId))
            .Select(a => new
            {
                a.TankId,
                a.DeliveryOn,
                a.Eggs,
                Signed = db.ReadyOverrides.Any(o => o.TankId == a.TankId && o.SeasonId == a.SeasonId && o.WithdrawnAt == null),
            }).ToListAsync(cancel);
        return promised.GroupBy(p => p.TankId).ToDictionary(
            g => g.Key,
            g => g.GroupBy(p => p.DeliveryOn!.Value).OrderBy(d => d.Key).Select(d => new EggsExpected(d.Key, d.Sum(p => p.Eggs), d.All(p => p.Signed))).First());
    }
}
