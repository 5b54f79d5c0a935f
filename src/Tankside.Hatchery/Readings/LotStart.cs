using Tankside.Hatchery.Eggs;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings;

/// <summary>The share of the way that eggs had done when they were delivered, and the error that all tanks of their lot have in it.</summary>
/// <remarks>
/// From the middle spawning day. Whatever it is known by, the days that it does not reach up to are reckoned at the hatchery's mean
/// temperature. Errors are judgement, no source; each is said where it stands.
/// </remarks>
internal readonly record struct LotStart(double Fraction, double Sd)
{
    /// <summary>Error of the hatchery's mean temperature, °C: it is an average handed over by word of mouth.</summary>
    private const double HatcheryMeanSd = 0.5;

    /// <summary>Constant error of the hatchery's thermometer, °C; it is read daily and looked after.</summary>
    private const double HatcheryThermometerSd = 0.25;

    /// <summary>Error of a sum of thermal units, as a share of it: rounding, the hour of the reading, the day it was made up to.</summary>
    private const double UnitsSd = 0.02;

    /// <summary>Error of the day on which half showed eyes, days: eyes come over days and are looked for now and then.</summary>
    private const double EyedDaysSd = 3;

    public static LotStart Of(LotProfile lot, StageModel model) => lot.History switch
    {
        { KnownBy: StartKnownBy.DailyTemperatures } history => FromDaily(lot, model, history.DailyC),
        { KnownBy: StartKnownBy.ThermalUnits, Units: { } units, UnitsOn: { } on } => FromUnits(lot, model, units.CelsiusDays, on),
        { KnownBy: StartKnownBy.EyedOn, EyedOn: { } on } => FromEyed(lot, model, on),
        _ => AtMean(lot, model, lot.Fertilised),
    };

    /// <summary>Warmth up to delivery, above 0 °C.</summary>
    public static double UnitsBefore(LotProfile lot)
    {
        double MeanUnits(DateOnly from) => Days(from, lot.DeliveredOn) * lot.HatcheryMeanC;
        return lot.History switch
        {
            { KnownBy: StartKnownBy.DailyTemperatures } history => DaysOf(lot, history.DailyC).Sum(c => Math.Max(0, c)),
            { KnownBy: StartKnownBy.ThermalUnits, Units: { } units, UnitsOn: { } on } => units.CelsiusDays + MeanUnits(on),
            _ => MeanUnits(lot.Fertilised),
        };
    }

    private static LotStart AtMean(LotProfile lot, StageModel model, DateOnly from)
    {
        var days = Days(from, lot.DeliveredOn);
        return new LotStart(days * model.RateAt(new Celsius(lot.HatcheryMeanC)), days * HatcheryMeanSd * SlopeAt(model, lot.HatcheryMeanC));
    }

    private static LotStart FromDaily(LotProfile lot, StageModel model, IReadOnlyList<double> daily)
    {
        var water = DaysOf(lot, daily).ToList();
        var filled = Math.Max(0, water.Count - KnownDays(lot, daily));
        var slopes = water.Sum(c => SlopeAt(model, c)) * HatcheryThermometerSd;
        var gap = filled * HatcheryMeanSd * SlopeAt(model, lot.HatcheryMeanC);
        return new LotStart(water.Sum(c => model.RateAt(new Celsius(c))), Math.Sqrt((slopes * slopes) + (gap * gap)));
    }

    private static LotStart FromUnits(LotProfile lot, StageModel model, double units, DateOnly on)
    {
        // What a unit is worth depends on the water it was gathered in: that is what the mean temperature is needed for.
        double PerUnit(double c) => model.RateAt(new Celsius(c)) / c;
        var mean = Math.Max(0.5, lot.HatcheryMeanC);
        var after = AtMean(lot, model, on);
        var fromMean = units * Math.Abs(PerUnit(mean + 0.25) - PerUnit(Math.Max(0.25, mean - 0.25))) / 0.5 * HatcheryMeanSd;
        var known = units * PerUnit(mean);
        return new LotStart(known + after.Fraction, Math.Sqrt((fromMean * fromMean) + (known * UnitsSd * known * UnitsSd) + (after.Sd * after.Sd)));
    }

    private static LotStart FromEyed(LotProfile lot, StageModel model, DateOnly on)
    {
        var mean = new Celsius(lot.HatcheryMeanC);
        var rate = model.RateAt(mean);
        var after = AtMean(lot, model, on);
        if (!lot.TryFind(Stage.Eyed, out var eyed, out _) || eyed.RateAt(mean) <= 0)
        {
            return AtMean(lot, model, lot.Fertilised);
        }

        // Eyed is a stage with a model of its own: how far its half is on the way to this stage is the ratio of their days.
        var share = rate / eyed.RateAt(mean);
        var sd = Math.Sqrt(Math.Pow(share * eyed.LogSd, 2) + Math.Pow(EyedDaysSd * rate, 2) + (after.Sd * after.Sd));
        return new LotStart(share + after.Fraction, sd);
    }

    /// <summary>One temperature a day from the middle spawning day to delivery, the missing ones at the hatchery's mean.</summary>
    private static IEnumerable<double> DaysOf(LotProfile lot, IReadOnlyList<double> daily)
    {
        var skip = Days(lot.FertilisedFrom, lot.Fertilised);
        return Enumerable.Range(skip, Days(lot.Fertilised, lot.DeliveredOn)).Select(i => i < daily.Count ? daily[i] : lot.HatcheryMeanC);
    }

    private static int KnownDays(LotProfile lot, IReadOnlyList<double> daily) =>
        Math.Clamp(daily.Count - Days(lot.FertilisedFrom, lot.Fertilised), 0, Days(lot.Fertilised, lot.DeliveredOn));

    private static int Days(DateOnly from, DateOnly to) => Math.Max(0, to.DayNumber - from.DayNumber);

    /// <summary>By how much a day's share changes with a degree.</summary>
    private static double SlopeAt(StageModel model, double c) =>
        Math.Abs(model.RateAt(new Celsius(c + 0.5)) - model.RateAt(new Celsius(c - 0.5)));
}
