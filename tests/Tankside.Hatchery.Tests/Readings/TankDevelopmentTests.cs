using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Tests.Readings;

public class TankDevelopmentTests
{
    private static readonly DateOnly Delivered = new(2027, 1, 15);

    private static readonly ProgrammeClock Clock = ProgrammeClock.Of("America/Los_Angeles");

    private static readonly LotProfile Trout = new("L1", Species.RainbowTrout, Delivered.AddDays(-15), Delivered.AddDays(-15), 9, Delivered, "R1");

    private static DevelopmentNow After(int days, IReadOnlyList<TankDay> known, LotProfile? lot = null, double setPoint = 10) =>
        TankDevelopment.On(Delivered.AddDays(days), lot ?? Trout, known, setPoint);

    /// <summary>A reading each day at 10 °C, from the delivery on, but for the days named.</summary>
    private static List<TankDay> Ten(int days, params int[] unread) =>
        [.. Enumerable.Range(0, days).Except(unread).Select(i => new TankDay { Day = Delivered.AddDays(i), MeanC = 10, WaterReadings = 1, Readings = 1 })];

    private static TankDay Said(int day, Share? hatched = null, Share? swimming = null, int? deadAlevins = null) =>
        new() { Day = Delivered.AddDays(day), Hatched = hatched, Swimming = swimming, DeadAlevins = deadAlevins };

    private static (DateOnly Low95, DateOnly Low80, DateOnly Mid, DateOnly High80, DateOnly High95) Dates(StageForecast f) =>
        (f.Low95, f.Low80, f.Mid, f.High80, f.High95);

    private static int Width(StageForecast forecast) => forecast.High95.DayNumber - forecast.Low95.DayNumber;

    [Fact]
    public void Thermal_units_count_from_the_middle_spawning_day_through_hatchery_and_tank()
    {
        var now = After(4, Ten(4));

        Assert.Equal(Delivered.AddDays(-15), now.Since);
        Assert.Equal((15 * 9) + (4 * 10), now.ThermalUnits.CelsiusDays, 6);
    }

    [Fact]
    public void Hatch_is_reckoned_by_the_daily_share_of_development()
    {
        // Crisp 1981, from memory: log10 D = 4.0313 - 2.0961 log10(T + 6); 36.8 days at 9 °C, 32.1 at 10 °C.
        static double Days(double c) => Math.Pow(10, 4.0313 - (2.0961 * Math.Log10(c + 6)));
        var hatch = After(5, Ten(5)).Hatch!;
        var left = (1 - (15 / Days(9)) - (5 / Days(10))) * Days(10);

        Assert.Equal((15 / Days(9)) + (5 / Days(10)), hatch.Fraction, 6);
        Assert.Equal(Delivered.AddDays(5 + (int)left), hatch.Mid);
        Assert.True(hatch.Low95 < hatch.Low80 && hatch.Low80 < hatch.Mid && hatch.Mid < hatch.High80 && hatch.High80 < hatch.High95);
        Assert.True(hatch.InRange);
    }

    [Fact]
    public void A_weekend_without_readings_widens_the_interval_and_a_reading_that_comes_in_late_narrows_it_again()
    {
        static double Gaps(DevelopmentNow now) => now.Hatch!.Parts.Single(p => p.Name == ForecastPartName.Gaps).SdDays;
        var (all, missing, returned) = (After(8, Ten(8)), After(8, Ten(8, 1, 2)), After(8, Ten(8, 2)));

        Assert.True(missing.Hatch!.SdDays > returned.Hatch!.SdDays);
        Assert.True(returned.Hatch.SdDays > all.Hatch!.SdDays);
        Assert.True(Gaps(missing) > 1.5 * Gaps(all), $"{Gaps(missing)} against {Gaps(all)} days");
    }

    [Fact]
    public void An_unread_day_is_taken_between_its_neighbours()
    {
        List<TankDay> days = [new() { Day = Delivered, MeanC = 8 }, new() { Day = Delivered.AddDays(4), MeanC = 12 }];

        Assert.Equal((15 * 9) + 8 + 9 + 10 + 11 + 12, After(5, days).ThermalUnits.CelsiusDays, 6);
    }

    [Fact]
    public void Days_before_the_first_reading_and_after_the_last_go_half_way_to_the_set_point()
    {
        Assert.Equal((15 * 9) + 9 + 8, After(2, [new() { Day = Delivered.AddDays(1), MeanC = 8 }]).ThermalUnits.CelsiusDays, 6);
        Assert.Equal((15 * 9) + 8 + 9, After(2, [new() { Day = Delivered, MeanC = 8 }]).ThermalUnits.CelsiusDays, 6);
        Assert.Equal((15 * 9) + 10 + 10, After(2, []).ThermalUnits.CelsiusDays, 6);
    }

    [Fact]
    public void Readings_in_fahrenheit_and_in_celsius_give_the_same_dates()
    {
        static DevelopmentNow Read(TemperatureUnit unit)
        {
            var habits = new TankHabits(null, null, 208, Jacket.None, 21);
            var facts = Enumerable.Range(0, 10).Select(i =>
            {
                var at = Clock.Utc(Delivered.AddDays(i), new TimeOnly(9, 0));
                var typed = WaterTemperature.FromC(9 + (0.5 * (i % 4)), unit);
                var verdict = Assert.IsType<WaterVerdict.Believed>(WaterTemperature.Judge(typed, unit, at, habits));
                return new ReadingFact(at, new Observation { WaterC = verdict.Celsius }, ByClass: true);
            });
            return After(10, TankDays.Fold(Guid.Empty, facts, Clock));
        }

        var (celsius, fahrenheit) = (Read(TemperatureUnit.C), Read(TemperatureUnit.F));

        Assert.Equal(Dates(celsius.Hatch!), Dates(fahrenheit.Hatch!));
        Assert.Equal(Dates(celsius.SwimUp!), Dates(fahrenheit.SwimUp!));
        Assert.Equal(celsius.ThermalUnits, fahrenheit.ThermalUnits);
    }

    [Fact]
    public void Several_spawning_days_widen_the_interval()
    {
        var spread = Trout with { FertilisedFrom = Delivered.AddDays(-19), FertilisedTo = Delivered.AddDays(-11) };

        Assert.Equal(After(5, Ten(5)).Hatch!.Fraction, After(5, Ten(5), spread).Hatch!.Fraction, 9);
        Assert.True(Width(After(5, Ten(5), spread).Hatch!) > Width(After(5, Ten(5)).Hatch!));
    }

    [Fact]
    public void The_stage_is_the_models_while_nobody_has_looked()
    {
        var hatch = After(60, Ten(60)).Hatch!.Mid.DayNumber - Delivered.DayNumber;
        var swimUp = After(60, Ten(60)).SwimUp!.Mid.DayNumber - Delivered.DayNumber;

        Assert.Equal(LifeStage.Egg, After(hatch - 1, Ten(hatch - 1)).Stage);
        Assert.Equal(LifeStage.Alevin, After(hatch + 1, Ten(hatch + 1)).Stage);
        Assert.Equal(LifeStage.Alevin, After(swimUp - 1, Ten(swimUp - 1)).Stage);
        Assert.Equal(LifeStage.Fry, After(swimUp + 1, Ten(swimUp + 1)).Stage);
    }

    [Fact]
    public void What_was_seen_of_the_hatch_wins_over_the_model()
    {
        Assert.Equal(LifeStage.Alevin, After(6, [.. Ten(5), Said(5, hatched: Share.Half)]).Stage);
        Assert.Equal(LifeStage.Egg, After(6, [.. Ten(5), Said(5, hatched: Share.Some)]).Stage);
        Assert.Equal(LifeStage.Egg, After(22, [.. Ten(21), Said(21, hatched: Share.None)]).Stage);
        Assert.Equal(LifeStage.Egg, After(50, [.. Ten(49), Said(49, hatched: Share.None)]).Stage);
    }

    [Fact]
    public void What_was_seen_swimming_wins_over_the_model()
    {
        Assert.Equal(LifeStage.Fry, After(22, [.. Ten(21), Said(21, swimming: Share.Half)]).Stage);
        Assert.Equal(LifeStage.Alevin, After(22, [.. Ten(21), Said(21, swimming: Share.Some)]).Stage);
        Assert.Equal(LifeStage.Alevin, After(50, [.. Ten(49), Said(49, hatched: Share.All, swimming: Share.None)]).Stage);
    }

    [Fact]
    public void The_day_of_half_hatch_is_the_first_on_which_half_was_seen()
    {
        var now = After(9, [.. Ten(5), Said(5, Share.Some), Said(6, Share.Half), Said(7, Share.All)]);

        Assert.Equal(Delivered.AddDays(6), now.HalfHatchedOn);
        Assert.True(now.HatchSeen);
    }

    [Fact]
    public void A_hatch_is_seen_by_an_alevin_a_swimmer_or_a_dead_alevin_and_not_by_none()
    {
        Assert.True(After(6, [Said(5, hatched: Share.Some)]).HatchSeen);
        Assert.True(After(6, [Said(5, swimming: Share.Some)]).HatchSeen);
        Assert.True(After(6, [Said(5, deadAlevins: 1)]).HatchSeen);
        Assert.False(After(6, [Said(5, hatched: Share.None, swimming: Share.None, deadAlevins: 0)]).HatchSeen);
    }

    [Fact]
    public void A_hatch_in_the_past_keeps_its_date_and_an_interval_on_both_sides()
    {
        var before = After(18, Ten(18)).Hatch!;
        var past = After(40, Ten(40)).Hatch!;

        Assert.True(past.Mid < Delivered.AddDays(40));
        Assert.InRange(past.Mid.DayNumber - before.Mid.DayNumber, -1, 1);
        Assert.True(past.Low95 < past.Mid && past.Mid < past.High95);
        Assert.True(past.Fraction > 1.5);
        Assert.Equal(past.Mid, After(60, Ten(60)).Hatch!.Mid);
    }

    [Fact]
    public void For_cutthroat_there_is_no_forecast_and_the_reason_is_told()
    {
        var now = After(5, Ten(5), Trout with { Species = Species.CutthroatTrout });

        Assert.Null(now.Hatch);
        Assert.Null(now.SwimUp);
        Assert.Contains("cutthroat", now.WhyNoForecast, StringComparison.Ordinal);
        Assert.Equal(LifeStage.Egg, now.Stage);
        Assert.Equal(LifeStage.Alevin, After(5, [Said(4, Share.All)], Trout with { Species = Species.CutthroatTrout }).Stage);
        Assert.Null(After(5, Ten(5)).WhyNoForecast);
    }

    [Fact]
    public void Outside_the_range_of_the_source_it_answers_and_says_so()
    {
        var cold = After(5, Ten(5), setPoint: 3).Hatch!;

        Assert.False(cold.InRange);
        Assert.True(cold.SdDays > After(5, Ten(5), setPoint: 5).Hatch!.SdDays);
    }

    [Fact]
    public void Eggs_delivered_on_their_spawning_day_bring_no_warmth_along() =>
        Assert.Equal(0, After(0, [], Trout with { FertilisedFrom = Delivered, FertilisedTo = Delivered }).ThermalUnits.CelsiusDays);

    [Theory]
    [InlineData(5)]
    [InlineData(12)]
    public void The_way_to_the_hatch_meets_its_date_and_its_interval(int today)
    {
        var hatch = After(today, Ten(today)).Hatch!;

        var way = hatch.Way!.Until(hatch.High80.AddDays(3));

        Assert.Equal(Delivered, way[0].Day);
        Assert.Equal(hatch.Fraction, way.Single(d => d.Day == Delivered.AddDays(today)).At.Fraction, 9);
        Assert.Equal(hatch.Mid, way.Last(d => d.At.Fraction <= 1).Day);
        // The slant of the fan is nearly the day's rate, so that its edges meet the stage near the ends of the date's interval.
        Assert.InRange(way.Last(d => d.At.Within80.High <= 1).Day.DayNumber - hatch.Low80.DayNumber, -1, 1);
        Assert.InRange(way.Last(d => d.At.Within80.Low <= 1).Day.DayNumber - hatch.High80.DayNumber, -1, 1);
    }
}
