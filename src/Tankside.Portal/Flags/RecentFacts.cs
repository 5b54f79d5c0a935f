using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Places;
using Tankside.Storage;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Flags;

/// <summary>What the rules look back on of many tanks, from the running state; no reading is read again but those of days not folded yet.</summary>
public static class RecentFacts
{
    /// <summary>Each tank's facts of the last days, ascending by time.</summary>
    /// <param name="folded">True when every new fact of these tanks was folded just now, in this transaction.</param>
    public static async Task<IReadOnlyDictionary<Guid, List<ReadingFact>>> LoadAsync(
        HatcheryDb db, Surroundings places, IReadOnlyList<Guid> tankIds, DateTime now, bool folded, CancellationToken cancel)
    {
        var first = DayFolding.FirstDay(now);
        var rows = await db.DayFacts.AsNoTracking().Where(d => tankIds.Contains(d.TankId) && d.Day >= first)
            .OrderBy(d => d.TankId).ThenBy(d => d.Day).ToListAsync(cancel);
        if (!folded)
        {
            rows = await WithNewAsync(db, places, rows, tankIds, first, cancel);
        }

        var from = now.AddDays(-TankRecord.RecentDays);
        var facts = new Dictionary<Guid, List<ReadingFact>>();
        foreach (var row in rows)
        {
            if (!facts.TryGetValue(row.TankId, out var own))
            {
                facts[row.TankId] = own = [];
            }

            FactPack.Read(row.Packed, own);
        }

        foreach (var own in facts.Values)
        {
            own.RemoveRange(0, own.FindIndex(f => f.At >= from) is var start and >= 0 ? start : own.Count);
        }

        return facts;
    }

    /// <summary>A reading shows on a page as soon as it is stored, also when nobody has judged it yet.</summary>
    private static async Task<List<DayFacts>> WithNewAsync(
        HatcheryDb db, Surroundings places, List<DayFacts> rows, IReadOnlyList<Guid> tankIds, DateOnly first, CancellationToken cancel)
    {
        var waiting = await db.UnjudgedFacts.AsNoTracking().Where(f => tankIds.Contains(f.TankId)).ToListAsync(cancel);
        var touched = DayFolding.Touched(waiting, places).Where(t => t.Day >= first).ToHashSet();
        if (touched.Count == 0)
        {
            return rows;
        }

        var readings = await DayReadings.LoadAsync(db, places, touched, cancel);
        return [.. rows.Where(r => !touched.Contains((r.TankId, r.Day)))
            .Concat(touched.Select(t => DayFacts.Of(t.TankId, t.Day, readings.Of(t.TankId, t.Day))).OfType<DayFacts>())
            .OrderBy(r => r.TankId).ThenBy(r => r.Day)];
    }
}
