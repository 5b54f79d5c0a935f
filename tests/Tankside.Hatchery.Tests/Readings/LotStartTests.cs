using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Readings;

/// <summary>What the hatchery hands over decides how far the eggs have come and how sure that is.</summary>
public class LotStartTests
{
    private static readonly DateOnly Spawned = new(2026, 12, 20);

    private static readonly DateOnly Delivered = new(2027, 1, 9);

    private static LotProfile Lot(LotHistory? history = null, Species species = Species.RainbowTrout, double meanC = 9) =>
        new("L1", species, Spawned, Spawned, meanC, Delivered, "R1") { History = history ?? LotHistory.Mean };

    private static LotHistory Daily(params double[] daily) => LotHistory.Mean with { KnownBy = StartKnownBy.DailyTemperatures, DailyC = daily };

    private static LotHistory Units(ThermalUnits units, DateOnly on) => LotHistory.Mean with { KnownBy = StartKnownBy.ThermalUnits, Units = units, UnitsOn = on };

    private static LotHistory Eyed(DateOnly on) => LotHistory.Mean with { KnownBy = StartKnownBy.EyedOn, EyedOn = on };

    private static DevelopmentNow At(LotProfile lot) => TankDevelopment.On(Delivered, lot, [], 10);

    private static StageForecast Hatch(LotProfile lot) => At(lot).Hatch!;

    private static double LotPart(LotProfile lot) => Hatch(lot).Parts.Single(p => p.Name == ForecastPartName.Start).SdDays;

    /// <summary>Crisp 1981, from memory: log10 D = 4.0313 - 2.0961 log10(T + 6).</summary>
    private static double Days(double c) => Math.Pow(10, 4.0313 - (2.0961 * Math.Log10(c + 6)));

    [Fact]
    public void Twenty_days_at_nine_degrees_are_the_same_by_mean_by_daily_temperatures_and_by_units()
    {
        var byMean = Hatch(Lot()).Fraction;

        Assert.Equal(20 / Days(9), byMean, 6);
        Assert.Equal(byMean, Hatch(Lot(Daily([.. Enumerable.Repeat(9.0, 20)]))).Fraction, 6);
        Assert.Equal(byMean, Hatch(Lot(Units(new ThermalUnits(180), Delivered))).Fraction, 6);
        Assert.Equal(byMean, Hatch(Lot(Units(ThermalUnits.FromFahrenheitDays(324), Delivered))).Fraction, 6);
        Assert.Equal(180, At(Lot(Daily([.. Enumerable.Repeat(9.0, 20)]))).ThermalUnits.CelsiusDays, 6);
        Assert.Equal(180, At(Lot(Units(new ThermalUnits(180), Delivered))).ThermalUnits.CelsiusDays, 6);
    }

    [Fact]
    public void Daily_temperatures_are_surer_than_a_mean_and_days_they_leave_out_are_reckoned_at_it()
    {
        var (mean, half, whole) = (Lot(), Lot(Daily([.. Enumerable.Repeat(9.0, 10)])), Lot(Daily([.. Enumerable.Repeat(9.0, 20)])));

        Assert.Equal(Hatch(mean).Fraction, Hatch(half).Fraction, 6);
        Assert.True(LotPart(whole) < LotPart(half) && LotPart(half) < LotPart(mean), $"{LotPart(whole)} {LotPart(half)} {LotPart(mean)}");
    }

    [Fact]
    public void Ten_cold_and_ten_warm_days_are_not_twenty_at_the_mean()
    {
        double[] daily = [.. Enumerable.Repeat(5.0, 10), .. Enumerable.Repeat(13.0, 10)];

        Assert.Equal((10 / Days(5)) + (10 / Days(13)), Hatch(Lot(Daily(daily))).Fraction, 6);
    }

    [Fact]
    public void What_units_are_worth_depends_on_the_water_they_were_gathered_in()
    {
        // Brook trout, handbook table (Leitritz and Lewis 1976): 144 days at 35 °F, 44 days at 50 °F; that is 240 and 440 °C-days.
        static double At(double f) => Hatch(Lot(Units(new ThermalUnits(120), Delivered), Species.BrookTrout, (f - 32) / 1.8)).Fraction;

        Assert.Equal(120 / (3 / 1.8 * 144), At(35), 6);
        Assert.Equal(120 / (18 / 1.8 * 44), At(50), 6);
    }

    [Fact]
    public void Units_made_up_three_days_before_delivery_go_on_at_the_mean()
    {
        var lot = Lot(Units(new ThermalUnits(153), Delivered.AddDays(-3)));

        Assert.Equal(20 / Days(9), Hatch(lot).Fraction, 6);
        Assert.Equal(180, At(lot).ThermalUnits.CelsiusDays, 6);
    }

    [Fact]
    public void Only_eyed_on_a_day_is_half_way_to_hatch_and_the_least_sure()
    {
        // Eyed: 0.5 x hatch, Crisp 1988, Atlantic salmon; abstract seen.
        var lot = Lot(Eyed(Delivered.AddDays(-2)), Species.AtlanticSalmon, meanC: 8);
        StageModels.TryFind(Species.AtlanticSalmon, Stage.Hatch, out var model, out _);

        Assert.Equal(0.5 + (2 * model!.RateAt(new Celsius(8))), Hatch(lot).Fraction, 6);
        Assert.True(LotPart(lot) > LotPart(Lot(species: Species.AtlanticSalmon, meanC: 8)));
    }

    [Fact]
    public void A_species_without_a_published_rule_goes_by_the_programmes_own_table()
    {
        var without = Lot(species: Species.CutthroatTrout);
        Assert.Null(At(without).Hatch);
        Assert.NotNull(At(without).WhyNoForecast);

        var table = StageModels.FromTable(Species.CutthroatTrout, Stage.Hatch, [(6, 60), (10, 32), (14, 20)], "the basin's own three seasons");
        var with = without with { OwnTables = [table] };

        Assert.Equal(20 / (1 / table.RateAt(new Celsius(9))), Hatch(with).Fraction, 6);
        Assert.Equal("the basin's own three seasons", Hatch(with).Model.Source);
        Assert.Equal(20 / (1.7 / table.RateAt(new Celsius(9))), At(with).SwimUp!.Fraction, 6);
    }

    [Fact]
    public void A_published_rule_is_not_set_aside_by_an_own_table()
    {
        var table = StageModels.FromTable(Species.RainbowTrout, Stage.Hatch, [(4, 90), (14, 20)], "hearsay");

        Assert.Equal(20 / Days(9), Hatch(Lot() with { OwnTables = [table] }).Fraction, 6);
    }
}
