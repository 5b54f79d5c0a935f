using System.Globalization;

namespace Tankside.Load.Soak;

/// <summary>What a portal and its database hold at one moment.</summary>
/// <param name="Hour">Simulated hours since the start.</param>
public sealed record Sample(double Hour, double ResidentMiB, double HeapMiB, int Handles, int Threads, long Connections, double DatabaseMiB, long Readings)
{
    public const string Header = """
        | simulated hour | resident memory, MiB | GC heap, MiB | handles | threads | database connections | database, MiB | readings |
        |---|---|---|---|---|---|---|---|
        """;

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture, $"| {Hour:0.00} | {ResidentMiB:0} | {HeapMiB:0.0} | {Handles} | {Threads} | {Connections} | {DatabaseMiB:0.0} | {Readings} |");
}

/// <summary>A straight line through samples: how much more an hour, and how sure that is.</summary>
/// <param name="Spread">Standard error of the slope.</param>
public sealed record Slope(double Mean, double AnHour, double Spread)
{
    /// <summary>What it would grow by in the hours that were looked at is less than so much of what there is.</summary>
    private const double Little = 0.1;

    public static Slope Of(IReadOnlyList<(double Hour, double Value)> samples)
    {
        var (hour, mean) = (samples.Average(s => s.Hour), samples.Average(s => s.Value));
        var width = samples.Sum(s => (s.Hour - hour) * (s.Hour - hour));
        var slope = samples.Sum(s => (s.Hour - hour) * (s.Value - mean)) / width;
        var rest = samples.Sum(s => Math.Pow(s.Value - mean - (slope * (s.Hour - hour)), 2));
        return new Slope(mean, slope, Math.Sqrt(rest / Math.Max(1, samples.Count - 2) / width));
    }

    /// <summary>It does not grow, or by so little that it is lost in what it is.</summary>
    /// <param name="hours">That were looked at.</param>
    public bool IsFlat(double hours) => AnHour <= 2 * Spread || AnHour * hours < Little * Mean;

    public string Words(string of, double hours) => string.Create(
        CultureInfo.InvariantCulture, $"| {of} | {Mean:0.0} | {AnHour:+0.000;-0.000;0} ± {Spread:0.000} | {(IsFlat(hours) ? "flat" : "**grows**")} |");
}
