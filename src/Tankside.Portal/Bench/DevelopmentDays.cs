using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Portal.Bench;

/// <summary>The arithmetic between the development question and the models.</summary>
internal static class DevelopmentDays
{
    public static double? Until(DevelopmentGiven given) => Development.DaysUntil(given.Model, given.Elapsed, given.Days);

    // A stage that falls on the end of a day must not draw in the next by the last digit of the sum.
    private const double Rounding = 1e-9;

    /// <summary>The temperatures that the answer rests on: up to the day of the stage, and no later one.</summary>
    public static IReadOnlyList<Celsius> Used(DevelopmentGiven given) =>
        Until(given) is { } days && days - Rounding < given.Days.Count
            ? [.. given.Days.Take(Math.Max(1, (int)Math.Ceiling(days - Rounding)))]
            : given.Days;

    /// <summary>
    /// The 80% interval from now. A fraction already done was reckoned with the same model, so the error of the whole way counts
    /// and not only that of the rest; nothing comes before today.
    /// </summary>
    public static (double Low, double High) Interval(DevelopmentGiven given, double days, bool inRange)
    {
        var whole = Development.Interval(days / (1 - given.Elapsed), given.Model, inRange);
        return (Math.Max(0, days - (whole.Mid - whole.Low)), days + (whole.High - whole.Mid));
    }
}
