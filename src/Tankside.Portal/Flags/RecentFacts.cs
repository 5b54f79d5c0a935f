using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Places;
using Tankside.Storage;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Flags;

/// <summary>What the rules look back on of many tanks, from the running state; no reading is read again but those of days not folded yet.</summary>
public sealed class RecentFacts
{
    private static readonly Compiled<IReadOnlyList<Guid>, DateOnly, DayFacts> Days = new((db, tankIds, first) =>
        db.DayFacts.AsNoTracking().Where(d => tankIds.Contains(d.TankId) && d.Day >= first).OrderBy(d => d.TankId).ThenBy(d => d.Day));

    private readonly Dictionary<Guid, List<DayFacts>> days;
    private readonly DateTime from;
    private readonly FactPack.Alike alike = new();

    private RecentFacts(IEnumerable<DayFacts> rows, DateTime from)
    {
        days = rows.GroupBy(r => r.TankId).ToDictionary(g => g.Key, g => g.ToList());
        this.from = from;
    }

    /// <param name="waiting">Facts of these tanks that were not folded yet, read before this.</param>
    public static async Task<RecentFacts> LoadAsync(
        HatcheryDb db, Surroundings places, IReadOnlyList<Guid> tankIds, IEnumerable<UnjudgedFact> waiting, DateTime now, CancellationToken cancel)
    {
        var first = DayFolding.FirstDay(now);
        var rows = await Days.ToListAsync(db, tankIds, first, cancel);
        return new RecentFacts(await WithNewAsync(db, places, rows, waiting, first, cancel), now.AddDays(-TankRecord.RecentDays));
    }

    /// <summary>A tank's facts of the last days, ascending by time; unpacked each time they are asked for, as they take far more room than the packs.</summary>
    public IReadOnlyList<ReadingFact> Of(Guid tankId)
    {
        var own = days.GetValueOrDefault(tankId, []);
        var facts = new List<ReadingFact>(own.Sum(d => FactPack.CountOf(d.Packed)));
        foreach (var day in own)
        {
            FactPack.Read(day.Packed, facts, alike);
            if (facts is [{ } first, ..] && first.At < from)
            {
                facts.RemoveRange(0, facts.FindIndex(f => f.At >= from) is var start and >= 0 ? start : facts.Count);
            }
        }

        return facts;
    }

    /// <summary>A reading shows on a page as soon as it is stored, also when nobody has judged it yet.</summary>
    private static async Task<List<DayFacts>> WithNewAsync(
        HatcheryDb db, Surroundings places, List<DayFacts> rows, IEnumerable<UnjudgedFact> waiting, DateOnly first, CancellationToken cancel)
    {
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
