using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>The causes of error in a stage's date.</summary>
public enum ForecastPartName
{
    /// <summary>The rule itself, shared and own part together.</summary>
    Model,

    /// <summary>The fraction at which the record begins.</summary>
    Start,

    /// <summary>Several spawning days.</summary>
    Spawning,

    /// <summary>A constant thermometer error.</summary>
    Thermometer,

    /// <summary>Each past day's own error, above all of days without a reading.</summary>
    Gaps,

    /// <summary>The temperature still to come.</summary>
    Future,
}

/// <summary>One cause's share in the error of the date.</summary>
/// <param name="Name">The cause.</param>
/// <param name="SdDays">Its standard deviation, days.</param>
public sealed record ForecastPart(ForecastPartName Name, double SdDays);

/// <summary>When a stage is expected and how sure that is.</summary>
public sealed record DevelopmentForecast
{
    /// <summary>
    /// Days from today until half of the fish reach the stage. 0 with <see cref="Passed"/> when the fraction is already one or
    /// more; null when the water to come is too cold for it ever to come.
    /// </summary>
    public required double? DaysAhead { get; init; }

    /// <summary>
    /// Standard deviation of the date, days: the root of the summed squares of <see cref="Parts"/>. 0 when never.
    /// </summary>
    public required double SdDays { get; init; }

    /// <summary>The six causes with their shares; empty when never.</summary>
    public required IReadOnlyList<ForecastPart> Parts { get; init; }

    /// <summary>Whether the best estimate of the fraction is one or more.</summary>
    public required bool Passed { get; init; }

    /// <summary>Days from today without the stop at zero: negative when the stage is reckoned to lie in the past.</summary>
    internal double Centre { get; init; }

    /// <summary>
    /// The days ahead between which the stage falls with this confidence: the normal distribution with <see cref="SdDays"/>,
    /// nothing before today. For a passed stage the high end says how much later it may still be.
    /// </summary>
    /// <param name="confidence">Between 0 and 1, for example 0.80 or 0.95; throws outside.</param>
    /// <exception cref="InvalidOperationException">The stage never comes (<see cref="DaysAhead"/> is null).</exception>
    public Band Within(double confidence)
    {
        var band = Around(confidence);
        return new Band(Math.Max(0, band.Low), Math.Max(0, band.Mid), Math.Max(0, band.High));
    }

    /// <summary>
    /// As <see cref="Within"/> without the stop at today: for a stage reckoned from a past day, whose low end may lie before that day.
    /// </summary>
    /// <param name="confidence">Between 0 and 1; throws outside.</param>
    /// <exception cref="InvalidOperationException">The stage never comes (<see cref="DaysAhead"/> is null).</exception>
    public Band Around(double confidence)
    {
        if (DaysAhead is null) throw new InvalidOperationException("The stage never comes in this water.");
        var reach = Normal.Quantile(0.5 + (Require.Share(confidence, nameof(confidence)) / 2)) * SdDays;
        return new Band(Centre - reach, Centre, Centre + reach);
    }
}
