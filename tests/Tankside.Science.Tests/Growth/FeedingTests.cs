using Tankside.Science.Eggs;
using Tankside.Science.Growth;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Growth;

public class FeedingTests
{
    private const string Chart = "leitritz_lewis_1980_feed_chart.csv";

    public static TheoryData<int> EveryCell => Rows.Indices(Chart, _ => true);

    /// <summary>Leitritz and Lewis 1980, California Fish Bulletin 164; every cell seen.</summary>
    [Theory]
    [MemberData(nameof(EveryCell))]
    public void Every_cell_of_the_chart_is_given_back(int index)
    {
        var row = Rows.Of(Chart)[index];
        var inches = row.Number("len_in_from") + 0.5;

        Assert.Equal(row.Number("pct_body_weight_per_day"), FeedChart.PercentADay(Celsius.FromFahrenheit(row.Number("temp_F")), inches * 2.54));
    }

    [Theory]
    [InlineData(35.9)]
    [InlineData(69)]
    public void Outside_the_chart_there_is_no_answer(double fahrenheit) => Assert.Null(FeedChart.PercentADay(Celsius.FromFahrenheit(fahrenheit), 3));

    /// <summary>Piper and others 1982: trout of 4055e-7 lb/in³; the chart's fish per pound at 2 inches is 304 (seen), that is 4112e-7.</summary>
    [Fact]
    public void A_two_inch_trout_weighs_what_the_charts_number_per_pound_says()
    {
        var size = ConditionFactor.SizeAt(Species.RainbowTrout, 2 * 2.54);

        Rows.Near(453.59 / 304, size.Grams, 0.03 * 453.59 / 304, "grams of a two inch trout");
        Assert.Equal(1 / size.Grams, size.NumberPerGram, 9);
    }

    /// <summary>One lb/in³ is 27.68 g/cm³; the handbooks' metric column gives 1.1224e-5 g/mm³ for 4055e-7.</summary>
    [Fact]
    public void The_condition_factor_is_the_same_in_both_units() => Assert.Equal(1.1224e-2, ConditionFactor.Of(Species.RainbowTrout).GramsPerCm3, 6);

    /// <summary>The rule and the chart at 50 °F with a conversion of 1.2 (common practice) and the growth of fish at their best: alike from about 1.5 inches, high below one.</summary>
    [Fact]
    public void Haskells_rule_agrees_with_the_chart_from_an_inch_and_a_half_and_reads_high_below_one()
    {
        var water = Celsius.FromFahrenheit(50);
        double Rule(double inches) => FeedChart.Haskell(1.2, water.Degrees / 30.4 / LengthGrowth.MonthsPerCm(Species.RainbowTrout).Best, inches * 2.54);
        double Charted(double inches) => FeedChart.PercentADay(water, inches * 2.54)!.Value;

        foreach (var inches in new[] { 1.6, 2.5, 3.5, 4.5 })
        {
            Assert.InRange(Rule(inches) / Charted(inches), 0.75, 1.3);
        }

        Assert.True(Rule(0.8) > 1.3 * Charted(0.8), $"{Rule(0.8)} {Charted(0.8)}");
    }

    /// <summary>Rainbow 7.1 °C-months a centimetre (Dwyer, document seen): at 10 °C that is 21.6 days.</summary>
    [Fact]
    public void A_centimetre_takes_the_tabled_warmth_and_lies_between_little_fed_and_best_fed()
    {
        var (cm, low, high) = LengthGrowth.After(Species.RainbowTrout, 7.1 * 30.4);

        Assert.Equal(3.5, cm, 9);
        Assert.Equal(3.0, low, 9);
        Assert.Equal(2.5 + (7.1 / 5.8), high, 9);
        Assert.True(LengthGrowth.MonthsPerCm(Species.CohoSalmon).Borrowed);
    }

    /// <summary>By hand: 10 g of food with half protein make 10 x 0.5 x 0.092 g = 460 mg N; a ripe filter needs 1.02 m² for it.</summary>
    [Fact]
    public void Food_makes_ammonia_in_proportion_to_its_protein()
    {
        Assert.Equal(460, FeedWaste.AmmoniaMgN(10), 9);
        Assert.Equal(1.022, FeedWaste.RipeFilterM2(460), 3);
    }

    [Theory]
    [InlineData(0.25)]
    [InlineData(0.5)]
    [InlineData(1.0)]
    public void The_steady_peak_is_where_a_change_takes_out_what_a_day_adds(double share)
    {
        var level = 0.0;
        for (var day = 0; day < 200; day++)
        {
            level = ((1 - share) * level) + 0.3;
        }

        Assert.Equal(level, FeedWaste.SteadyPeak(0.3, share), 6);
        Assert.Equal(Math.Pow(1 - share, 3), FeedWaste.LeftAfter(3, share), 12);
    }
}
