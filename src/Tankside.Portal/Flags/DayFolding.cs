using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>Keeps the daily summaries in step with the readings: only the days that a new, late or corrected fact touches are folded again.</summary>
public static class DayFolding
{
    public static async Task FoldAsync(HatcheryDb db, IReadOnlyList<UnjudgedFact> facts, CancellationToken cancel)
    {
        if (facts.Count == 0)
        {
            return;
        }

        var tankIds = facts.Select(f => f.TankId).Distinct().ToList();
        var places = await Surroundings.LoadAsync(db, tankIds, cancel);
        var touched = facts.Where(f => places.Knows(f.TankId))
            .Select(f => (f.TankId, Day: places.Of(f.TankId).Calendar.Clock.Day(f.At))).ToHashSet();

        // A local day lies within a day and a half of UTC midnight on either side, whatever the zone.
        var from = facts.Min(f => f.At).AddDays(-1.5);
        var to = facts.Max(f => f.At).AddDays(1.5);
        var readings = await db.Readings.AsNoTracking()
            .Where(r => tankIds.Contains(r.TankId) && r.At >= from && r.At <= to && r.State == ReadingState.Accepted && r.CorrectedBy == null)
            .Select(r => new { r.TankId, r.At, r.Seen })
            .ToListAsync(cancel);
        var byDay = readings.ToLookup(r => (r.TankId, places.Of(r.TankId).Calendar.Clock.Day(r.At)), r => new ReadingFact(r.At, r.Seen, false));

        var first = touched.Min(t => t.Day);
        var last = touched.Max(t => t.Day);
        var stored = await db.TankDays.Where(d => tankIds.Contains(d.TankId) && d.Day >= first && d.Day <= last)
            .ToDictionaryAsync(d => (d.TankId, d.Day), cancel);
        foreach (var key in touched)
        {
            var clock = places.Of(key.TankId).Calendar.Clock;
            var folded = TankDays.Fold(key.TankId, byDay[key], clock).SingleOrDefault();
            Replace(db, stored.GetValueOrDefault(key), folded);
        }
    }

    private static void Replace(HatcheryDb db, TankDay? stored, TankDay? folded)
    {
        if (folded is null)
        {
            if (stored is not null)
            {
                db.TankDays.Remove(stored);
            }
        }
        else if (stored is null)
        {
            db.TankDays.Add(folded);
        }
        else
        {
            db.Entry(stored).CurrentValues.SetValues(folded);
        }
    }
}
