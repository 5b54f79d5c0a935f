using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Places;
using Tankside.Storage;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Flags;

/// <summary>
/// Keeps the running state in step with the readings: the summary of each day, and what the rules look back on of the last weeks. Only the
/// days that a new, late or corrected fact touches are folded again.
/// </summary>
public static class DayFolding
{
    /// <summary>The first local day whose single facts are kept at a moment, whatever the time zone.</summary>
    public static DateOnly FirstDay(DateTime now) => DateOnly.FromDateTime(now).AddDays(-TankRecord.RecentDays - 1);

    /// <summary>Folds the days of some facts; add to the context, do not save.</summary>
    public static async Task FoldAsync(HatcheryDb db, IReadOnlyList<UnjudgedFact> facts, DateTime now, CancellationToken cancel)
    {
        if (facts.Count == 0)
        {
            return;
        }

        var tankIds = facts.Select(f => f.TankId).Distinct().ToList();
        var places = await Surroundings.LoadAsync(db, tankIds, cancel);
        await FoldAsync(db, places, Touched(facts, places), now, cancel);
    }

    /// <summary>Folds these days.</summary>
    public static async Task FoldAsync(
        HatcheryDb db, Surroundings places, IReadOnlyCollection<(Guid TankId, DateOnly Day)> touched, DateTime now, CancellationToken cancel)
    {
        if (touched.Count == 0)
        {
            return;
        }

        var readings = await DayReadings.LoadAsync(db, places, touched, cancel);
        var tankIds = touched.Select(t => t.TankId).Distinct().ToList();
        var (first, last) = (touched.Min(t => t.Day), touched.Max(t => t.Day));
        var summaries = await db.TankDays.Where(d => tankIds.Contains(d.TankId) && d.Day >= first && d.Day <= last).ToDictionaryAsync(d => (d.TankId, d.Day), cancel);
        var packs = await db.DayFacts.Where(d => tankIds.Contains(d.TankId) && d.Day >= first && d.Day <= last).ToDictionaryAsync(d => (d.TankId, d.Day), cancel);
        await PastDays.ForgetAsync(db, touched, cancel);
        var kept = FirstDay(now);
        foreach (var (tank, day) in touched)
        {
            var facts = readings.Of(tank, day);
            Replace(db, summaries.GetValueOrDefault((tank, day)), TankDays.Fold(tank, facts, places.Of(tank).Calendar.Clock).SingleOrDefault());
            Replace(db, packs.GetValueOrDefault((tank, day)), day < kept ? null : DayFacts.Of(tank, day, facts));
        }
    }

    /// <summary>Folds a whole history at once, of a tank that has no running state yet.</summary>
    /// <param name="facts">Readings that count, in any order.</param>
    public static void AddAll(HatcheryDb db, Guid tankId, IReadOnlyList<ReadingFact> facts, ProgrammeClock clock, DateTime now)
    {
        var (days, recent) = FoldAll(tankId, facts, clock, now);
        db.TankDays.AddRange(days);
        db.DayFacts.AddRange(recent);
    }

    /// <summary>The running state of a whole history.</summary>
    public static (IReadOnlyList<TankDay> Days, IReadOnlyList<DayFacts> Recent) FoldAll(
        Guid tankId, IReadOnlyList<ReadingFact> facts, ProgrammeClock clock, DateTime now)
    {
        var kept = FirstDay(now);
        var recent = facts.Where(f => f.At >= now.AddDays(-TankRecord.RecentDays - 2)).GroupBy(f => clock.Day(f.At)).Where(g => g.Key >= kept)
            .Select(g => DayFacts.Of(tankId, g.Key, [.. g.OrderBy(f => f.At)])).OfType<DayFacts>();
        return (TankDays.Fold(tankId, facts, clock), [.. recent]);
    }

    public static HashSet<(Guid TankId, DateOnly Day)> Touched(IEnumerable<UnjudgedFact> facts, Surroundings places) =>
        [.. facts.Where(f => places.Knows(f.TankId)).Select(f => (f.TankId, places.Of(f.TankId).Calendar.Clock.Day(f.At)))];

    private static void Replace<T>(HatcheryDb db, T? stored, T? folded)
        where T : class
    {
        if (folded is null)
        {
            if (stored is not null)
            {
                db.Remove(stored);
            }
        }
        else if (stored is null)
        {
            db.Add(folded);
        }
        else
        {
            db.Entry(stored).CurrentValues.SetValues(folded);
        }
    }
}
