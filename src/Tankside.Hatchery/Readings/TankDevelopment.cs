using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings;

/// <summary>When a stage is, or was, half reached: the middle with its 80% and 95% intervals, as local days.</summary>
/// <param name="Fraction">Share of the way to the stage at the start of today; above 1 when it should be past.</param>
public sealed record StageForecast(
    double Fraction,
    DateOnly Mid,
    DateOnly Low80,
    DateOnly High80,
    DateOnly Low95,
    DateOnly High95,
    double SdDays,
    bool InRange,
    StageModel Model,
    IReadOnlyList<ForecastPart> Parts)
{
    /// <summary>Days by which the hatches seen in the lot move the middle: later above 0, earlier below; 0 when they taught nothing.</summary>
    public double LearnedDays { get; init; }

    /// <summary>What it is reckoned from, for other water still to come; null when the stage is reckoned to be past.</summary>
    public StageOutlook? Outlook { get; init; }

    /// <summary>The way there day by day; null where no water is known.</summary>
    public StageWay? Way { get; init; }
}

/// <summary>What the fish in a tank are doing on a day, and what comes next.</summary>
/// <param name="Stage">The stage for limits: by what was seen where that is known, else by the model.</param>
/// <param name="ThermalUnits">Warmth since <paramref name="Since"/>, above 0 °C.</param>
/// <param name="Since">The start of <paramref name="ThermalUnits"/>: the middle spawning day.</param>
/// <param name="Hatch">Null when no model is known; <paramref name="WhyNoForecast"/> says why.</param>
/// <param name="SwimUp">Swim-up, taken as first feeding too.</param>
public sealed record DevelopmentNow(
    LifeStage Stage,
    ThermalUnits ThermalUnits,
    DateOnly Since,
    StageForecast? Hatch,
    StageForecast? SwimUp,
    string? WhyNoForecast,
    bool HatchSeen,
    DateOnly? HalfHatchedOn)
{
    /// <summary>Whose hatch sharpened the dates: that of swim-up, and until half have hatched that of the hatch. Null when nobody's was seen.</summary>
    public LearnedFrom? Learned { get; init; }

    /// <summary>When the first and when the last are out, about; null without a date for the hatch.</summary>
    public (DateOnly First, DateOnly Last)? HatchSpan { get; init; }
}

/// <summary>
/// A tank's development from its lot's start and its own daily temperatures. Days without a reading are filled from their neighbours
/// and widen the interval.
/// </summary>
public static class TankDevelopment
{
    /// <summary>One thermometer's constant error, °C.</summary>
    internal const double ThermometerSd = 0.4;

    /// <summary>Day-to-day spread round the set point, and error of the set point itself, °C.</summary>
    private const double FutureDaySd = 0.5, FutureMeanSd = 0.5;

    /// <summary>Share of the model's error that is a tank's own rather than its lot's, log scale.</summary>
    internal const double OwnSd = 0.03;

    /// <summary>Judges development on <paramref name="today"/> from the days known so far (ascending).</summary>
    /// <param name="learned">What was seen of the hatch in the lot's other tanks; what was seen in this one is in its days.</param>
    /// <param name="plan">The steps that the dial will be turned by, ascending; null where it stays at the set point.</param>
    public static DevelopmentNow On(
        DateOnly today, LotProfile lot, IReadOnlyList<TankDay> days, double setPointC, LotLearned? learned = null, IReadOnlyList<SetPointStep>? plan = null)
    {
        IReadOnlyList<Celsius> coming = plan is null ? [new Celsius(setPointC)] : SetPointCourse.Daily(plan, today);
        var daily = DailyWater.Of(lot.DeliveredOn, today, days, setPointC);
        var units = new ThermalUnits(LotStart.UnitsBefore(lot) + daily.Take(DaysPast(lot, today)).Sum(d => d.Mean.Degrees));
        var half = days.FirstOrDefault(d => d.Hatched >= Share.Half)?.Day;
        var taught = (learned ?? LotLearned.Nothing).With(HatchesSeen.Of(Guid.Empty, lot, days, setPointC), lot);

        // Once half were seen to hatch, the hatch's date is no longer asked for: it stays what the model alone says of it.
        var hatch = Forecast(Stage.Hatch, lot, daily, coming, half is null ? taught : null, out var why);
        var swimUp = Forecast(Stage.SwimUp, lot, daily, coming, taught, out _);

        var hatchSeen = days.Any(d => d.Hatched >= Share.Some || d.Swimming >= Share.Some || d.DeadAlevins > 0 || d.DeadFry > 0);
        var stage = StageNow(today, days, hatch, swimUp);
        return new DevelopmentNow(stage, units, lot.Fertilised, hatch, swimUp, why, hatchSeen, half)
        {
            Learned = taught?.From,
            HatchSpan = hatch is null ? null : SpanOf(hatch, lot, daily, coming),
        };
    }

    /// <summary>Half lies in the middle of first and last, as far from both as the species takes in this water.</summary>
    private static (DateOnly First, DateOnly Last)? SpanOf(StageForecast hatch, LotProfile lot, List<DayTemperature> daily, IReadOnlyList<Celsius> coming)
    {
        var index = hatch.Mid.DayNumber - lot.DeliveredOn.DayNumber;
        var water = index < 0 ? new Celsius(lot.HatcheryMeanC)
            : index < daily.Count ? daily[index].Mean
            : coming[Math.Min(index - daily.Count, coming.Count - 1)];
        if (hatch.Model.RateAt(water) is not (> 0 and var rate))
        {
            return null;
        }

        var days = (int)Math.Ceiling(HatchSpread.ToHalf(lot.Species).Share / rate);
        return (hatch.Mid.AddDays(-days), hatch.Mid.AddDays(days));
    }

    private static LifeStage StageNow(DateOnly today, IReadOnlyList<TankDay> days, StageForecast? hatch, StageForecast? swimUp)
    {
        var lastHatched = days.LastOrDefault(d => d.Hatched is not null)?.Hatched;
        var lastSwimming = days.LastOrDefault(d => d.Swimming is not null)?.Swimming;
        var hatched = days.Any(d => d.Hatched >= Share.Half || d.Swimming >= Share.Some);
        var swims = days.Any(d => d.Swimming >= Share.Half);
        if (swims || (swimUp is not null && swimUp.Mid <= today && lastSwimming is null or not Share.None && lastHatched is not Share.None))
        {
            return LifeStage.Fry;
        }

        return hatched || (hatch is not null && hatch.Mid <= today && lastHatched is not Share.None) ? LifeStage.Alevin : LifeStage.Egg;
    }

    private static int DaysPast(LotProfile lot, DateOnly today) => Math.Max(0, today.DayNumber - lot.DeliveredOn.DayNumber);

    private static StageForecast? Forecast(
        Stage stage, LotProfile lot, List<DayTemperature> daily, IReadOnlyList<Celsius> coming, Taught? taught, out string? why)
    {
        if (!lot.TryFind(stage, out var model, out var reason))
        {
            why = reason;
            return null;
        }

        why = null;
        var hatchery = new Celsius(lot.HatcheryMeanC);
        bool InRangeOf(StageModel m) => m.InRange(hatchery) && daily.All(d => m.InRange(d.Mean)) && coming.All(m.InRange);
        var start = LotStart.Of(lot, model);
        var inRange = InRangeOf(model);
        var learned = taught is { From.Any: true } ? taught.Of(model, start, InRangeOf(taught.Hatch), inRange) : (LearnedStage?)null;

        // Where the lot takes more development than the model says, as if it had done that much less.
        var later = learned is { } l ? l.Fraction - 1 : 0;

        // A stage already past is dated by where the sum crossed 1, so that "late" can be measured from it.
        var (anchor, fraction) = CrossingOrToday(model, start.Fraction - later, daily);
        var input = new ForecastInput
        {
            Model = model,
            FractionSoFar = fraction,
            StartFractionSd = learned?.StartSd ?? start.Sd,
            SpawnSpreadDays = lot.SpawnSpreadDays,
            SpawnWaterMean = hatchery,
            Past = daily[..anchor],
            ThermometerSd = ThermometerSd,
            Future = [.. daily.Skip(anchor).Select(d => d.Mean), .. coming],
            FutureDaySd = FutureDaySd,
            FutureMeanSd = FutureMeanSd,
            ModelSharedSd = learned?.ModelSd ?? model.LogSd,
            ModelOwnSd = learned is null ? OwnSd : 0,
            OutsideRange = learned is null && !inRange,
        };
        var forecast = Development.Forecast(input);
        if (forecast.DaysAhead is not { } ahead)
        {
            why = "At this temperature development stands still.";
            return null;
        }

        var zero = lot.DeliveredOn.AddDays(anchor);
        Band At(double confidence) => anchor < daily.Count ? forecast.Around(confidence) : forecast.Within(confidence);
        var (band80, band95) = (At(0.80), At(0.95));
        var now = (start.Fraction + daily.Sum(d => model.RateAt(d.Mean))) / (1 + later);
        var rate = model.RateAt(anchor < daily.Count ? daily[anchor].Mean : coming[0]);
        return new StageForecast(
            now, Day(zero, ahead), Day(zero, band80.Low), Day(zero, band80.High), Day(zero, band95.Low), Day(zero, band95.High),
            forecast.SdDays, inRange, model, forecast.Parts)
        {
            LearnedDays = rate > 0 ? later / rate : 0,
            Way = new StageWay(input, zero, later),
            Outlook = anchor < daily.Count || fraction >= 1 ? null : new StageOutlook(
                input with { Future = [] }, model.InRange(hatchery) && daily.All(d => model.InRange(d.Mean)), learned is not null),
        };
    }

    /// <summary>Index of the day in which the stage was half reached with the fraction before it; or today's.</summary>
    private static (int Anchor, double Fraction) CrossingOrToday(StageModel model, double start, List<DayTemperature> daily)
    {
        var fraction = start;
        for (var i = 0; i < daily.Count; i++)
        {
            var rate = model.RateAt(daily[i].Mean);
            if (fraction + rate >= 1)
            {
                return (i, Math.Min(fraction, 1));
            }

            fraction += rate;
        }

        return (daily.Count, Math.Min(fraction, 1));
    }

    private static DateOnly Day(DateOnly zero, double days) => zero.AddDays((int)Math.Floor(Math.Clamp(days, -400, 2000)));
}
