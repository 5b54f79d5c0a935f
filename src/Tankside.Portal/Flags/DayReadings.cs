using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>The readings that count of single tanks' local days: what a day's running state is rebuilt from.</summary>
public sealed class DayReadings
{
    private readonly Surroundings places;
    private readonly Dictionary<(Guid Tank, DateOnly Day), List<ReadingFact>> byDay = [];

    private DayReadings(Surroundings places) => this.places = places;

    /// <summary>Reads the days asked for and hardly more; one query for all that lie together in time.</summary>
    public static async Task<DayReadings> LoadAsync(
        HatcheryDb db, Surroundings places, IReadOnlyCollection<(Guid Tank, DateOnly Day)> days, CancellationToken cancel)
    {
        var result = new DayReadings(places);
        foreach (var day in days)
        {
            result.byDay[day] = [];
        }

        foreach (var together in Together(days))
        {
            await result.AddAsync(db, together, cancel);
        }

        return result;
    }

    /// <summary>Ascending by time; empty when nothing that counts was read.</summary>
    public IReadOnlyList<ReadingFact> Of(Guid tank, DateOnly day) => byDay[(tank, day)];

    /// <summary>One reading of three weeks ago must not make everybody's three weeks be read.</summary>
    private static IEnumerable<List<(Guid Tank, DateOnly Day)>> Together(IEnumerable<(Guid Tank, DateOnly Day)> days)
    {
        var run = new List<(Guid Tank, DateOnly Day)>();
        foreach (var day in days.OrderBy(d => d.Day))
        {
            if (run.Count > 0 && day.Day > run[^1].Day.AddDays(1))
            {
                yield return run;
                run = [];
            }

            run.Add(day);
        }

        if (run.Count > 0)
        {
            yield return run;
        }
    }

    private async Task AddAsync(HatcheryDb db, List<(Guid Tank, DateOnly Day)> days, CancellationToken cancel)
    {
        var tanks = days.Select(d => d.Tank).Distinct().ToList();
        var clocks = tanks.Select(t => places.Of(t).Calendar.Clock).DistinctBy(c => c.Zone.Id).ToList();
        var from = clocks.Min(c => c.Utc(days[0].Day, default));
        var to = clocks.Max(c => c.Utc(days[^1].Day.AddDays(1), default));
        var rows = await db.Readings.AsNoTracking()
            .Where(r => tanks.Contains(r.TankId) && r.At >= from && r.At < to && r.State == ReadingState.Accepted && r.CorrectedBy == null)
            .OrderBy(r => r.At).ThenBy(r => r.Id)
            .Select(r => new { r.TankId, r.At, r.Seen, r.Source, r.ReceivedAt })
            .ToListAsync(cancel);
        foreach (var row in rows)
        {
            if (byDay.TryGetValue((row.TankId, places.Of(row.TankId).Calendar.Clock.Day(row.At)), out var facts))
            {
                facts.Add(new ReadingFact(row.At, row.Seen, row.Source == ReadingSource.Class, row.ReceivedAt));
            }
        }
    }
}
