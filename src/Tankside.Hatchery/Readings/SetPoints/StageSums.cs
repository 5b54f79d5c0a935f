using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>Days from the start of today to the middle of a stage, infinite when it never comes, and their standard deviation.</summary>
internal readonly record struct StageDate(double Ahead, double SdDays)
{
    public static readonly StageDate Never = new(double.PositiveInfinity, 0);
}

/// <summary>
/// What a stage's date needs from the water to come, added up: of the rates, of their slopes against temperature and of the slopes'
/// squares, and whether any day lay outside the range of the model's source.
/// </summary>
internal record struct StageSum(double Fraction, double Slopes, double Squares, bool Outside);

/// <summary>
/// A stage's arithmetic with all that no course changes worked out once, so that a course costs as many additions as it has turns. It gives
/// what <see cref="Development.Forecast"/> gives; a test holds the two together.
/// </summary>
internal sealed class StageSums
{
    private readonly double left, model, still, pastSlopes, thermometer, futureDay, futureMean;

    private readonly double[] rate, slope;

    private readonly bool[] inRange;

    public StageSums(StageOutlook outlook, double[] positions)
    {
        var i = outlook.SoFar;
        rate = [.. positions.Select(c => i.Model.RateAt(new Celsius(c)))];
        slope = [.. positions.Select(c => i.Model.SlopeAt(new Celsius(c)))];
        inRange = [.. positions.Select(c => outlook.Learned || (outlook.InRange && i.Model.InRange(new Celsius(c))))];
        left = 1 - i.FractionSoFar;
        model = Square(i.ModelSharedSd) + Square(i.ModelOwnSd);
        still = Square(i.StartFractionSd) + (Square(i.SpawnSpreadDays * i.Model.RateAt(i.SpawnWaterMean)) / 12)
            + i.Past.Sum(day => Square(i.Model.SlopeAt(day.Mean) * day.ErrorSd));
        pastSlopes = i.Past.Sum(day => i.Model.SlopeAt(day.Mean));
        (thermometer, futureDay, futureMean) = (Square(i.ThermometerSd), Square(i.FutureDaySd), Square(i.FutureMeanSd));
    }

    public bool IsReached(in StageSum sum) => sum.Fraction >= left;

    public StageSum DaysMore(in StageSum sum, int position, int days) => new(
        sum.Fraction + (days * rate[position]), sum.Slopes + (days * slope[position]),
        sum.Squares + (days * slope[position] * slope[position]), sum.Outside || !inRange[position]);

    /// <summary>The date when the dial stands still from this day on.</summary>
    public StageDate Standing(int day, in StageSum before, int position)
    {
        if (rate[position] <= 0)
        {
            return StageDate.Never;
        }

        var days = (left - before.Fraction) / rate[position];
        var (s, whole) = (slope[position], Math.Floor(days));
        var part = days - whole;
        var slopes = before.Slopes + (s * days);
        var squares = before.Squares + (s * s * (whole + (part * part)));
        var factor = before.Outside || !inRange[position] ? Square(Development.OutsideRangeFactor) : 1;
        var variance = (model * factor) + still + (thermometer * Square(pastSlopes + slopes)) + (futureDay * squares) + (futureMean * Square(slopes));
        return new StageDate(day + days, Math.Sqrt(variance) / rate[position]);
    }

    private static double Square(double x) => x * x;
}
