using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>How a water test is found among the readings, and for how long it speaks for the water.</summary>
internal static class WaterTests
{
    /// <summary>The newest test of <paramref name="what"/>, unless it is too old to speak for the water.</summary>
    public static ReadingFact? Newest<T>(Situation s, Func<Observation, T?> what)
        where T : struct =>
        s.LastTold(what) is { } test && test.At >= s.Now.AddDays(-s.Limits[Limits.WaterTestAge]) ? test : null;

    /// <summary>The value read nearest in time to a test, within so many days of it.</summary>
    public static ReadingFact? Near(Situation s, ReadingFact test, Func<Observation, double?> what, double days) =>
        s.Record.Recent
            .Where(r => what(r.Seen) is not null && Math.Abs((r.At - test.At).TotalDays) <= days)
            .MinBy(r => Math.Abs((r.At - test.At).Ticks));

    /// <summary>The water's temperature at a test, °C: read within a day of it, else what the chiller aims for.</summary>
    public static double WaterAt(Situation s, ReadingFact test) =>
        Math.Clamp(Near(s, test, r => r.WaterC, 1)?.Seen.WaterC ?? s.Tank.SetPointC, 0, 40);
}
