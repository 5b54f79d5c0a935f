using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>
/// What was seen of the hatch in all the tanks that hold some lots, whichever school they stand in: the dates by which siblings sharpen.
/// From the daily summaries, which hold only readings that count, so that one taken back takes its hatch along.
/// </summary>
public sealed class LotHatches
{
    /// <summary>
    /// Tanks of a lot that are looked at: after so many the lot's own error is known to a fraction of what each tank adds by itself. Taken
    /// in the order of their ids, which knows nothing of when they hatched.
    /// </summary>
    private const int Enough = 24;

    private readonly Dictionary<Guid, List<HatchSeen>> byLot = [];

    /// <param name="lots">The lots as the tanks asked about hold them.</param>
    public static async Task<LotHatches> LoadAsync(HatcheryDb db, IReadOnlyList<LotInTank> lots, CancellationToken cancel)
    {
        var result = new LotHatches();
        var clocks = lots.GroupBy(l => l.LotId).ToDictionary(g => g.Key, g => g.First().Clock);
        var lotIds = clocks.Keys.ToList();
        var hatched = (await (
            from receipt in db.Receipts.AsNoTracking()
            join lot in db.EggLots on receipt.LotId equals lot.Id
            join tank in db.Tanks on receipt.TankId equals tank.Id
            where lotIds.Contains(receipt.LotId) && !db.Receipts.Any(r => r.TankId == receipt.TankId && r.At > receipt.At)
                && db.TankDays.Any(d => d.TankId == receipt.TankId && d.Hatched != null && d.Hatched != Share.None)
            select new { receipt.TankId, receipt.At, receipt.Run, Lot = lot, tank.SetPointC }).ToListAsync(cancel))
            .GroupBy(t => t.Lot.Id).SelectMany(g => g.OrderBy(t => t.TankId).DistinctBy(t => t.TankId).Take(Enough)).ToList();
        if (hatched.Count == 0)
        {
            return result;
        }

        var tables = await OwnTables.LoadAsync(db, hatched.Select(t => t.Lot), cancel);

        // The water matters up to the last word about the hatch and no further.
        var tankIds = hatched.Select(t => t.TankId).ToList();
        var days = (await db.TankDays.AsNoTracking()
            .Where(d => tankIds.Contains(d.TankId) && db.TankDays.Any(w => w.TankId == d.TankId && w.Hatched != null && w.Day >= d.Day))
            .OrderBy(d => d.Day).Select(d => new { d.TankId, d.Day, d.MeanC, d.Hatched }).ToListAsync(cancel))
            .ToLookup(d => d.TankId, d => new TankDay { TankId = d.TankId, Day = d.Day, MeanC = d.MeanC, Hatched = d.Hatched });
        foreach (var tank in hatched)
        {
            var profile = tables.ProfileOf(tank.Lot, clocks[tank.Lot.Id].Day(tank.At), tank.Run);
            List<TankDay> own = [.. days[tank.TankId].Where(d => d.Day >= profile.DeliveredOn)];
            if (!result.byLot.TryGetValue(tank.Lot.Id, out var seen))
            {
                result.byLot[tank.Lot.Id] = seen = [];
            }

            seen.AddRange(HatchesSeen.Of(tank.TankId, profile, own, tank.SetPointC));
        }

        return result;
    }

    /// <summary>What a tank learns: the hatches of its lot's other tanks.</summary>
    public LotLearned For(Guid lotId, Guid tankId) =>
        byLot.TryGetValue(lotId, out var seen) ? new LotLearned([.. seen.Where(s => s.Tank != tankId)]) : LotLearned.Nothing;
}
