using CsCheck;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Eggs;

public class ForecastTests
{
    private static readonly StageModel Rainbow = ModelOf(Species.RainbowTrout);

    [Fact]
    public void Days_until_and_fraction_undo_each_other()
    {
        Gen.Double[3, 13].Array[1, 60].Sample(temps =>
        {
            Celsius[] days = [.. temps.Select(t => new Celsius(t))];
            var done = Development.Fraction(Rainbow, days);
            var until = Development.DaysUntil(Rainbow, 0, days)!.Value;
            if (done < 1) Assert.Equal(1 - done, (until - days.Length) * Rainbow.RateAt(days[^1]), 1e-9);
            else Assert.True(until <= days.Length);
        });
    }

    [Fact]
    public void A_stage_already_reached_is_zero_days_away() => Assert.Equal(0, Development.DaysUntil(Rainbow, 1.2, [new(9)]));

    [Fact]
    public void A_stage_never_comes_in_frozen_water()
    {
        Assert.Null(Development.DaysUntil(Rainbow, 0.4, [new(5), new(-1)]));
        var forecast = Development.Forecast(Input() with { Future = [new(-1)] });
        Assert.Equal((null, 0, false), (forecast.DaysAhead, forecast.SdDays, forecast.Passed));
        Assert.Empty(forecast.Parts);
        Assert.Throws<InvalidOperationException>(() => forecast.Within(0.8));
    }

    [Fact]
    public void A_forecast_agrees_with_days_until()
    {
        var input = Input();
        Assert.Equal(Development.DaysUntil(Rainbow, input.FractionSoFar, input.Future), Development.Forecast(input).DaysAhead);
    }

    [Fact]
    public void Every_cause_widens_the_date_by_its_own_part()
    {
        var forecast = Development.Forecast(Input());
        Assert.Equal(Enum.GetValues<ForecastPartName>(), forecast.Parts.Select(part => part.Name));
        Assert.All(forecast.Parts, part => Assert.True(part.SdDays > 0.05, part.Name.ToString()));
        Assert.Equal(forecast.SdDays * forecast.SdDays, forecast.Parts.Sum(part => part.SdDays * part.SdDays), 9);
    }

    [Fact]
    public void A_known_start_and_perfect_thermometer_leave_nothing_but_the_model()
    {
        var forecast = Development.Forecast(Only(Input(), ForecastPartName.Model));
        Assert.Equal(0.08 / Rainbow.RateAt(new Celsius(9.5)), forecast.SdDays, 6);
    }

    [Fact]
    public void Outside_the_range_the_model_part_doubles()
    {
        static double Model(ForecastInput input) =>
            Development.Forecast(input).Parts.First(p => p.Name == ForecastPartName.Model).SdDays;
        Assert.Equal(2 * Model(Input()), Model(Input() with { OutsideRange = true }), 9);
    }

    [Fact]
    public void Days_without_a_reading_widen_the_gap_part_alone()
    {
        var gappy = Input() with { Past = [.. Input().Past.Select((day, i) => i < 6 ? day with { ErrorSd = 1.5 } : day)] };
        var (before, after) = (Development.Forecast(Input()), Development.Forecast(gappy));
        Assert.All(before.Parts.Zip(after.Parts), pair =>
            Assert.Equal(pair.First.Name == ForecastPartName.Gaps, pair.Second.SdDays > pair.First.SdDays));
    }

    [Fact]
    public void A_wider_confidence_gives_a_wider_band_never_before_today()
    {
        var forecast = Development.Forecast(Input() with { FractionSoFar = 0.95 });
        var (eighty, ninetyFive) = (forecast.Within(0.80), forecast.Within(0.95));
        Assert.True(ninetyFive.High > eighty.High && eighty.High > eighty.Mid);
        Assert.Equal(0, ninetyFive.Low);
        Assert.Equal(forecast.DaysAhead, eighty.Mid);
        Assert.Equal(forecast.DaysAhead!.Value + (1.959964 * forecast.SdDays), ninetyFive.High, 5);
        Assert.Throws<ArgumentOutOfRangeException>(() => forecast.Within(1));
    }

    [Fact]
    public void A_passed_stage_may_still_be_to_come_within_its_error()
    {
        var just = Development.Forecast(Input() with { FractionSoFar = 1.02 });
        var long_ago = Development.Forecast(Input() with { FractionSoFar = 1.9 });
        Assert.Equal((0, true), (just.DaysAhead, just.Passed));
        Assert.True(just.Within(0.95).High > 0);
        Assert.Equal(new Band(0, 0, 0), long_ago.Within(0.95));
    }

    [Fact]
    public void A_negative_spread_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Development.Forecast(Input() with { FutureDaySd = -1 }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Development.Forecast(Input() with { Past = [new(new(9), double.NaN)] }));
        Assert.Throws<ArgumentException>(() => Development.Forecast(Input() with { Future = [] }));
    }

    [Fact]
    public void A_wait_of_years_in_cold_water_is_answered_at_once()
    {
        var chum = ModelOf(Species.ChumSalmon);
        var forecast = Development.Forecast(Input() with { Model = chum, FractionSoFar = 0, Future = [new(0.01)] });
        Assert.True(forecast.DaysAhead > 300 && double.IsFinite(forecast.SdDays));
    }

    internal static ForecastInput Input() => new()
    {
        Model = Rainbow,
        FractionSoFar = 0.45,
        StartFractionSd = 0.03,
        SpawnSpreadDays = 3,
        SpawnWaterMean = new Celsius(9),
        Past = [.. Enumerable.Range(0, 12).Select(i => new DayTemperature(new Celsius(9 + (0.1 * i)), i % 4 == 0 ? 1.0 : 0.3))],
        ThermometerSd = 0.4,
        Future = [.. Enumerable.Repeat(new Celsius(10.5), 5), new Celsius(9.5)],
        FutureDaySd = 0.6,
        FutureMeanSd = 0.3,
        ModelSharedSd = Math.Sqrt(0.0048),
        ModelOwnSd = 0.04,
    };

    internal static ForecastInput Only(ForecastInput input, ForecastPartName name) => input with
    {
        StartFractionSd = name == ForecastPartName.Start ? input.StartFractionSd : 0,
        SpawnSpreadDays = name == ForecastPartName.Spawning ? input.SpawnSpreadDays : 0,
        Past = name == ForecastPartName.Gaps ? input.Past : [.. input.Past.Select(day => day with { ErrorSd = 0 })],
        ThermometerSd = name == ForecastPartName.Thermometer ? input.ThermometerSd : 0,
        FutureDaySd = name == ForecastPartName.Future ? input.FutureDaySd : 0,
        FutureMeanSd = name == ForecastPartName.Future ? input.FutureMeanSd : 0,
        ModelSharedSd = name == ForecastPartName.Model ? input.ModelSharedSd : 0,
        ModelOwnSd = name == ForecastPartName.Model ? input.ModelOwnSd : 0,
    };

    private static StageModel ModelOf(Species species) =>
        StageModels.TryFind(species, Stage.Hatch, out var model, out var why) ? model : throw new InvalidOperationException(why);
}
