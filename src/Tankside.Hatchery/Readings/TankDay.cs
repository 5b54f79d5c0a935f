using Tankside.Hatchery.People;

namespace Tankside.Hatchery.Readings;

/// <summary>
/// One tank's local day in short: the running summary that judging, forecasts and charts read instead of a season's raw readings.
/// It can always be rebuilt from them.
/// </summary>
public sealed class TankDay
{
    public Guid TankId { get; init; }

    public DateOnly Day { get; init; }

    /// <summary>Readings that count on this day.</summary>
    public int Readings { get; set; }

    public int WaterReadings { get; set; }

    /// <summary>First and last reading of the day, UTC.</summary>
    public DateTime FirstAt { get; set; }

    public DateTime LastAt { get; set; }

    /// <summary>Squared hours between the day's readings, summed: from it the age of what is known is worked out over a season.</summary>
    public double SquaredGapHours { get; set; }

    public double? MeanC { get; set; }

    public double? MinC { get; set; }

    public double? MaxC { get; set; }

    /// <summary>Dead eggs removed; null when nobody counted that day.</summary>
    public int? DeadEggs { get; set; }

    public int? DeadAlevins { get; set; }

    public int? DeadFry { get; set; }

    public Share? Hatched { get; set; }

    public Share? Swimming { get; set; }

    public int? Dead => (DeadEggs ?? DeadAlevins ?? DeadFry) is null
        ? null
        : (DeadEggs ?? 0) + (DeadAlevins ?? 0) + (DeadFry ?? 0);
}

/// <summary>A reading that counts, as the rules see it.</summary>
/// <param name="At">When it was read, UTC.</param>
/// <param name="Seen">What was seen.</param>
/// <param name="ByClass">True when it came by room code alone.</param>
/// <param name="ReceivedAt">When it arrived, UTC; left out where it was known as soon as it was read.</param>
public sealed record ReadingFact(DateTime At, Observation Seen, bool ByClass, DateTime? ReceivedAt = null);

/// <summary>Folds readings into days.</summary>
public static class TankDays
{
    /// <summary>The days of <paramref name="readings"/>, ascending; readings may come in any order.</summary>
    public static List<TankDay> Fold(Guid tankId, IEnumerable<ReadingFact> readings, ProgrammeClock clock) =>
        [.. readings
            .GroupBy(r => clock.Day(r.At))
            .OrderBy(g => g.Key)
            .Select(g => FoldDay(tankId, g.Key, [.. g.OrderBy(r => r.At)]))];

    private static TankDay FoldDay(Guid tankId, DateOnly date, List<ReadingFact> facts)
    {
        var day = new TankDay { TankId = tankId, Day = date, FirstAt = facts[0].At, LastAt = facts[^1].At };
        day.SquaredGapHours = Math.Round(facts.Zip(facts.Skip(1), (a, b) => Math.Pow((b.At - a.At).TotalHours, 2)).Sum(), 6);
        var sum = 0m;
        foreach (var s in facts.Select(f => f.Seen))
        {
            day.Readings++;
            if (s.WaterC is { } c)
            {
                day.WaterReadings++;
                sum += (decimal)c;
                day.MinC = day.MinC is { } min ? Math.Min(min, c) : c;
                day.MaxC = day.MaxC is { } max ? Math.Max(max, c) : c;
            }

            day.DeadEggs = Add(day.DeadEggs, s.DeadEggs);
            day.DeadAlevins = Add(day.DeadAlevins, s.DeadAlevins);
            day.DeadFry = Add(day.DeadFry, s.DeadFry);
            day.Hatched = Most(day.Hatched, s.Hatched);
            day.Swimming = Most(day.Swimming, s.Swimming);
        }

        // Summed exactly, so that another order gives the same stored day; rounding a sum of doubles would not at an exact half.
        day.MeanC = day.WaterReadings == 0 ? null : (double)Math.Round(sum / day.WaterReadings, 4);
        return day;
    }

    private static int? Add(int? total, int? count) => count is null ? total : (total ?? 0) + count;

    private static Share? Most(Share? soFar, Share? share) =>
        soFar is null || share > soFar ? share : soFar;
}
