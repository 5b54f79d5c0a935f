using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Releases;

/// <summary>From this day on the dial stands so.</summary>
public readonly record struct TemperingStep(DateOnly On, double C);

/// <summary>
/// How a tank is brought to the temperature of the stream before its fish are let go: a degree Fahrenheit a day at the dial on school days, as late as it can
/// begin, and the rest in the bucket at the water.
/// </summary>
/// <remarks>
/// A degree Fahrenheit a day, five degrees at the water and 20 to 30 minutes in the bucket: handbooks and permits ask for it, common practice. Three studies found no gain in survival
/// within the tolerated range, so the plan warns and never forbids.
/// </remarks>
/// <param name="Steps">Turns of the dial, ascending; empty where the tank is as warm as the stream.</param>
/// <param name="LeftC">Stream less tank on the day of release, °C: what is left for the bucket.</param>
public sealed record TemperingPlan(IReadOnlyList<TemperingStep> Steps, double LeftC)
{
    /// <summary>A turn a day, °C: 1 °F.</summary>
    public const double StepC = 1 / 1.8;

    /// <summary>As far as bucket and stream may be apart, °C.</summary>
    public double ApartC { get; init; } = TemperingSettings.Apart.Default;

    /// <summary>Streams that young fish are let into are within these, °C: 45 to 60 °F.</summary>
    public const double ColdestStreamC = 13 / 1.8, WarmestStreamC = 28 / 1.8;

    /// <summary>Minutes in the bucket, stream water added little by little.</summary>
    public const int LeastMinutes = 20, MostMinutes = 30;

    /// <summary>A share of a step for which nobody turns the dial.</summary>
    private const double NoTurn = 0.1;

    public bool IsNearEnough => Math.Abs(LeftC) <= ApartC + 1e-9;

    /// <param name="tankC">Where the dial stands, °C.</param>
    /// <param name="streamC">The stream as it was measured, °C.</param>
    /// <param name="firstTurn">First day on which somebody may turn the dial.</param>
    /// <param name="releaseOn">Day of the release; the water has followed the dial by then, so the last turn is on a day before.</param>
    /// <param name="lowestC">Coldest set-point for the fish; <paramref name="highestC"/> the warmest.</param>
    public static TemperingPlan Of(double tankC, double streamC, DateOnly firstTurn, DateOnly releaseOn, SchoolCalendar calendar, double lowestC, double highestC)
    {
        var aim = Math.Clamp(streamC, Math.Min(lowestC, tankC), Math.Max(highestC, tankC));
        var needed = (int)Math.Ceiling((Math.Abs(aim - tankC) / StepC) - NoTurn);
        var days = Enumerable.Range(0, Math.Max(0, releaseOn.DayNumber - firstTurn.DayNumber)).Select(firstTurn.AddDays).Where(calendar.IsSchoolDay).TakeLast(needed).ToList();
        var steps = days.Select((day, i) => new TemperingStep(day, tankC + (Math.Sign(aim - tankC) * Math.Min(StepC * (i + 1), Math.Abs(aim - tankC))))).ToList();
        return new TemperingPlan(steps, streamC - (steps.Count > 0 ? steps[^1].C : tankC));
    }
}
