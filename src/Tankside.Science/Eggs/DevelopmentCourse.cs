using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>The fraction of the way to a stage at the start of one day, and how sure it is.</summary>
/// <param name="Fraction">Best estimate; may pass 1.</param>
/// <param name="Sd">Its standard deviation, same unit.</param>
public readonly record struct FractionDay(double Fraction, double Sd)
{
    /// <summary>The fractions between which it lies four times in five; the low end stops at 0.</summary>
    public Band Within80 =>
        new(Math.Max(0, Fraction - (Normal.EightyPercent * Sd)), Math.Max(0, Fraction), Math.Max(0, Fraction + (Normal.EightyPercent * Sd)));
}

/// <summary>
/// The course of the fraction over the days, with the same six causes of error as the date of the stage (<see cref="ForecastSum"/>), each grown
/// to that day. Where the fraction is one its standard deviation divided by that day's rate is the standard deviation of the date.
/// </summary>
public static class DevelopmentCourse
{
    /// <summary>
    /// The start of every day from the first of <see cref="ForecastInput.Past"/> to <paramref name="daysAhead"/> days from today: one more
    /// entry than past and coming days together; entry Past.Count is today.
    /// </summary>
    /// <param name="input">What the date is made from; every standard deviation finite and 0 or more.</param>
    /// <param name="daysAhead">0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="daysAhead"/> is negative.</exception>
    public static IReadOnlyList<FractionDay> Of(ForecastInput input, int daysAhead)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(daysAhead);
        var model = Math.Sqrt(Square(input.ModelSharedSd) + Square(input.ModelOwnSd)) * (input.OutsideRange ? Development.OutsideRangeFactor : 1);
        var spawning = input.SpawnSpreadDays / Math.Sqrt(12) * input.Model.RateAt(input.SpawnWaterMean);
        var begun = Square(input.StartFractionSd) + Square(spawning);
        var fraction = input.FractionSoFar - input.Past.Sum(day => input.Model.RateAt(day.Mean));
        double slopes = 0, comingSlopes = 0, own = 0;
        var course = new List<FractionDay>(input.Past.Count + daysAhead + 1);
        Add();
        foreach (var day in input.Past)
        {
            Walk(day.Mean, day.ErrorSd);
            Add();
        }

        for (var ahead = 0; ahead < daysAhead; ahead++)
        {
            var water = input.Future[Math.Min(ahead, input.Future.Count - 1)];
            comingSlopes += input.Model.SlopeAt(water);
            Walk(water, input.FutureDaySd);
            Add();
        }

        return course;

        void Walk(Celsius water, double errorSd)
        {
            var slope = input.Model.SlopeAt(water);
            fraction += input.Model.RateAt(water);
            slopes += slope;
            own += Square(slope * errorSd);
        }

        void Add() => course.Add(new FractionDay(fraction, Math.Sqrt(
            Square(model * Math.Max(0, fraction)) + begun + Square(slopes * input.ThermometerSd) + Square(comingSlopes * input.FutureMeanSd) + own)));
    }

    private static double Square(double x) => x * x;
}
