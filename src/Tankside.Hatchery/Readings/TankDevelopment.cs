using Tankside.Hatchery.Eggs;
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
    IReadOnlyList<ForecastPart> Parts);

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
    DateOnly? HalfHatchedOn);

/// <summary>
/// A tank's development from its lot's start and its own daily temperatures. Days without a reading are filled from their neighbours
/// and widen the interval.
/// </summary>
public static class TankDevelopment
{
    /// <summary>Error of a day's mean from one or two looks, °C (thermometers at 0.3 to 0.5).</summary>
    private const double ReadDaySd = 0.3;

    /// <summary>Error of a day that nobody read, °C: it lies between its neighbours, but how, nobody knows (common practice).</summary>
    private const double UnreadDaySd = 1.0;

    /// <summary>One thermometer's constant error, °C.</summary>
    private const double ThermometerSd = 0.4;

    /// <summary>Error of the hatchery's mean temperature, °C: it is an average handed over by word of mouth.</summary>
    private const double HatcheryMeanSd = 0.5;

    /// <summary>Day-to-day spread round the set point, and error of the set point itself, °C.</summary>
    private const double FutureDaySd = 0.5, FutureMeanSd = 0.5;

    /// <summary>Share of the model's error that is a tank's own rather than its lot's, log scale.</summary>
    private const double OwnSd = 0.03;

    /// <summary>Judges development on <paramref name="today"/> from the days known so far (ascending).</summary>
    public static DevelopmentNow On(DateOnly today, LotProfile lot, IReadOnlyList<TankDay> days, double setPointC)
    {
        var daily = DailyMeans(lot.DeliveredOn, today, days, setPointC);
        var units = new ThermalUnits((DaysAtHatchery(lot) * lot.HatcheryMeanC) + daily.Take(DaysPast(lot, today)).Sum(d => d.Mean.Degrees));

        var hatch = Forecast(Stage.Hatch, lot, daily, setPointC, out var why);
        var swimUp = Forecast(Stage.SwimUp, lot, daily, setPointC, out _);

        var hatchSeen = days.Any(d => d.Hatched >= Share.Some || d.Swimming >= Share.Some || d.DeadAlevins > 0 || d.DeadFry > 0);
        var half = days.FirstOrDefault(d => d.Hatched >= Share.Half)?.Day;
        var stage = StageNow(today, days, hatch, swimUp);
        return new DevelopmentNow(stage, units, lot.Fertilised, hatch, swimUp, why, hatchSeen, half);
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

    /// <summary>One temperature a day from delivery to yesterday; unread days interpolated, ends held at what is known or the set point.</summary>
    private static List<DayTemperature> DailyMeans(DateOnly from, DateOnly today, IReadOnlyList<TankDay> days, double setPointC)
    {
        var known = days.Where(d => d.MeanC is not null && d.Day >= from && d.Day < today).ToList();
        var result = new List<DayTemperature>();
        var next = 0;
        for (var day = from; day < today; day = day.AddDays(1))
        {
            while (next < known.Count && known[next].Day < day)
            {
                next++;
            }

            if (next < known.Count && known[next].Day == day)
            {
                result.Add(new DayTemperature(new Celsius(known[next].MeanC!.Value), ReadDaySd));
                continue;
            }

            var before = next > 0 ? known[next - 1] : null;
            var after = next < known.Count ? known[next] : null;
            result.Add(new DayTemperature(new Celsius(Between(day, before, after, setPointC)), UnreadDaySd));
        }

        return WithSharedGapError(result);
    }

    /// <summary>
    /// The days of one gap are wrong together, not each for itself: a gap of n days has n times one day's error. As the sum adds days up as
    /// independent, each is given the error times the root of n.
    /// </summary>
    private static List<DayTemperature> WithSharedGapError(List<DayTemperature> days)
    {
        for (var first = 0; first < days.Count;)
        {
            var end = first;
            while (end < days.Count && days[end].ErrorSd == UnreadDaySd)
            {
                end++;
            }

            for (var i = first; i < end; i++)
            {
                days[i] = days[i] with { ErrorSd = UnreadDaySd * Math.Sqrt(end - first) };
            }

            first = end + 1;
        }

        return days;
    }

    private static double Between(DateOnly day, TankDay? before, TankDay? after, double setPointC) => (before, after) switch
    {
        ({ } b, { } a) => b.MeanC!.Value
            + ((a.MeanC!.Value - b.MeanC!.Value) * (day.DayNumber - b.Day.DayNumber) / (a.Day.DayNumber - b.Day.DayNumber)),
        ({ } b, null) => (b.MeanC!.Value + setPointC) / 2,
        (null, { } a) => (a.MeanC!.Value + setPointC) / 2,
        _ => setPointC,
    };

    private static StageForecast? Forecast(
        Stage stage, LotProfile lot, List<DayTemperature> daily, double setPointC, out string? why)
    {
        if (!StageModels.TryFind(lot.Species, stage, out var model, out var reason))
        {
            why = reason;
            return null;
        }

        why = null;
        var hatchery = new Celsius(lot.HatcheryMeanC);
        var start = StartFraction(model, lot);

        // A stage already past is dated by where the sum crossed 1, so that "late" can be measured from it.
        var (anchor, fraction) = CrossingOrToday(model, start, daily);
        var inRange = model.InRange(hatchery) && daily.All(d => model.InRange(d.Mean)) && model.InRange(new Celsius(setPointC));
        var forecast = Development.Forecast(SoFar(model, lot, daily[..anchor], fraction) with
        {
            Future = [.. daily.Skip(anchor).Select(d => d.Mean), new Celsius(setPointC)],
            OutsideRange = !inRange,
        });
        if (forecast.DaysAhead is not { } ahead)
        {
            why = "At this temperature development stands still.";
            return null;
        }

        var zero = lot.DeliveredOn.AddDays(anchor);
        Band At(double confidence) => anchor < daily.Count ? forecast.Around(confidence) : forecast.Within(confidence);
        var (band80, band95) = (At(0.80), At(0.95));
        var now = start + daily.Sum(d => model.RateAt(d.Mean));
        return new StageForecast(
            now, Day(zero, ahead), Day(zero, band80.Low), Day(zero, band80.High), Day(zero, band95.Low), Day(zero, band95.High),
            forecast.SdDays, inRange, model, forecast.Parts);
    }

    /// <summary>
    /// What the date of a stage will be made of, with the water still to come left open. Null when no model is known, or when the stage is
    /// reckoned to be past.
    /// </summary>
    public static StageOutlook? Outlook(Stage stage, DateOnly today, LotProfile lot, IReadOnlyList<TankDay> days, double setPointC)
    {
        if (!StageModels.TryFind(lot.Species, stage, out var model, out _))
        {
            return null;
        }

        var daily = DailyMeans(lot.DeliveredOn, today, days, setPointC);
        var (anchor, fraction) = CrossingOrToday(model, StartFraction(model, lot), daily);
        return anchor < daily.Count || fraction >= 1
            ? null
            : new StageOutlook(
                SoFar(model, lot, daily, fraction),
                model.InRange(new Celsius(lot.HatcheryMeanC)) && daily.All(d => model.InRange(d.Mean)));
    }

    private static double StartFraction(StageModel model, LotProfile lot) => DaysAtHatchery(lot) * model.RateAt(new Celsius(lot.HatcheryMeanC));

    private static int DaysAtHatchery(LotProfile lot) => Math.Max(0, lot.DeliveredOn.DayNumber - lot.Fertilised.DayNumber);

    private static ForecastInput SoFar(StageModel model, LotProfile lot, List<DayTemperature> past, double fraction) => new()
    {
        Model = model,
        FractionSoFar = fraction,
        StartFractionSd = DaysAtHatchery(lot) * HatcheryMeanSd
            * Math.Abs(model.RateAt(new Celsius(lot.HatcheryMeanC + 0.5)) - model.RateAt(new Celsius(lot.HatcheryMeanC - 0.5))),
        SpawnSpreadDays = lot.SpawnSpreadDays,
        SpawnWaterMean = new Celsius(lot.HatcheryMeanC),
        Past = past,
        ThermometerSd = ThermometerSd,
        Future = [],
        FutureDaySd = FutureDaySd,
        FutureMeanSd = FutureMeanSd,
        ModelSharedSd = model.LogSd,
        ModelOwnSd = OwnSd,
    };

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
