using CsCheck;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Eggs;

public class StageModelTests
{
    [Theory]
    [InlineData(Species.CutthroatTrout, Stage.Hatch)]
    [InlineData(Species.CutthroatTrout, Stage.SwimUp)]
    [InlineData(Species.CutthroatTrout, Stage.Eyed)]
    [InlineData(Species.LakeTrout, Stage.SwimUp)]
    public void Without_a_published_model_there_is_a_reason(Species species, Stage stage)
    {
        Assert.False(StageModels.TryFind(species, stage, out var model, out var why));
        Assert.Null(model);
        Assert.Contains(SpeciesCodes.CommonName(species), why, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_other_species_and_stage_has_a_model_with_its_source()
    {
        foreach (var species in Enum.GetValues<Species>().Except([Species.CutthroatTrout]))
        {
            foreach (var stage in Enum.GetValues<Stage>())
            {
                if (species == Species.LakeTrout && stage == Stage.SwimUp) continue;
                Assert.True(StageModels.TryFind(species, stage, out var model, out var why), why);
                Assert.Equal((species, stage), (model.Species, model.Stage));
                Assert.Equal("", why);
                Assert.All([model.Name, model.Source, model.HowKnown, model.LogSdSource], text => Assert.NotEqual("", text));
                Assert.InRange(model.LogSd, 0.05, 0.2);
                Assert.True(model.FromC < model.ToC);
            }
        }
    }

    // Crisp 1988: swim-up 1.7 and eyed 0.5 of the time to hatch, 0-9.5 °C.
    [Theory]
    [InlineData(Species.RainbowTrout, 8, 1.7, true)]
    [InlineData(Species.BrownTrout, 9.5, 1.7, true)]
    [InlineData(Species.AtlanticSalmon, 9.6, 1.7, false)]
    [InlineData(Species.RainbowTrout, 3.9, 1.7, false)]
    [InlineData(Species.BrookTrout, 10, 1.63, true)]
    [InlineData(Species.BrookTrout, 12.5, 1.63, false)]
    public void Swim_up_is_a_multiple_of_hatch_inside_its_own_range(Species species, double c, double factor, bool inRange)
    {
        Assert.True(StageModels.TryFind(species, Stage.Hatch, out var hatch, out _));
        Assert.True(StageModels.TryFind(species, Stage.SwimUp, out var swimUp, out _));
        Assert.True(hatch.TryDaysAt(new Celsius(c), out var hatched));
        Assert.True(swimUp.TryDaysAt(new Celsius(c), out var swum));
        Assert.Equal(factor * hatched.Days, swum.Days, 9);
        Assert.Equal(inRange, swum.InRange);
        Assert.True(swimUp.LogSd > hatch.LogSd);
    }

    [Theory]
    [InlineData(Species.AtlanticSalmon, false)]
    [InlineData(Species.RainbowTrout, true)]
    [InlineData(Species.LakeTrout, true)]
    public void Eyed_is_half_way_to_hatch_and_says_where_it_is_borrowed(Species species, bool borrowed)
    {
        Assert.True(StageModels.TryFind(species, Stage.Hatch, out var hatch, out _));
        Assert.True(StageModels.TryFind(species, Stage.Eyed, out var eyed, out _));
        Assert.Equal(2 * hatch.RateAt(new Celsius(8)), eyed.RateAt(new Celsius(8)), 12);
        Assert.Equal(borrowed, eyed.HowKnown.Contains("borrowed", StringComparison.Ordinal));
    }

    [Fact]
    public void Brook_trout_swim_up_is_marked_low_confidence()
    {
        Assert.True(StageModels.TryFind(Species.BrookTrout, Stage.SwimUp, out var model, out _));
        Assert.Contains("low confidence", model.HowKnown, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-0.5)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Ice_and_nonsense_have_no_answer(double c)
    {
        Assert.True(StageModels.TryFind(Species.SockeyeSalmon, Stage.Hatch, out var model, out _));
        Assert.False(model.TryDaysAt(new Celsius(c), out _));
    }

    [Fact]
    public void Where_a_curve_is_undefined_it_has_no_answer_and_no_rate()
    {
        Assert.True(StageModels.TryFind(Species.PinkSalmonOdd, Stage.SwimUp, out var model, out _));
        Assert.False(model.TryDaysAt(new Celsius(0.1), out _));
        Assert.Equal(0, model.RateAt(new Celsius(0.1)));
        Assert.Equal(0, model.RateAt(new Celsius(-2)));
        Assert.Throws<ArgumentOutOfRangeException>(() => model.RateAt(new Celsius(double.NaN)));
    }

    [Fact]
    public void Warmer_water_is_never_slower()
    {
        var models = Enum.GetValues<Species>().SelectMany(s => Enum.GetValues<Stage>().Select(stage => (s, stage)))
            .Select(pair => StageModels.TryFind(pair.s, pair.stage, out var model, out _) ? model : null)
            .OfType<StageModel>().ToArray();
        Gen.Select(Gen.Double[0, 20], Gen.Double[0, 20]).Sample((a, b) => Assert.All(models, model =>
            Assert.True(model.RateAt(new Celsius(Math.Min(a, b))) <= model.RateAt(new Celsius(Math.Max(a, b))))));
    }

    [Fact]
    public void A_table_of_ones_own_works_like_the_handbook()
    {
        var model = StageModels.FromTable(Species.CutthroatTrout, Stage.Hatch, [(10, 30), (5, 60)], "own notes");
        Assert.True(model.TryDaysAt(new Celsius(10), out var cell));
        Assert.True(model.TryDaysAt(new Celsius(7.5), out var between));
        Assert.Equal(30, cell.Days);
        Assert.Equal(Math.Sqrt(1800), between.Days, 9);
        Assert.False(model.TryDaysAt(new Celsius(11), out _));
        Assert.Equal(("own notes", 5, 10), (model.Source, model.FromC, model.ToC));
    }

    public static TheoryData<(double C, double Days)[]> BadTables =>
    [
        [],
        [(5, 60)],
        [(5, 60), (5, 50)],
        [(5, 60), (10, 60)],
        [(5, 60), (10, 70)],
        [(5, 60), (10, 0)],
        [(5, double.NaN), (10, 30)],
        [(-1, 60), (10, 30)],
    ];

    [Theory]
    [MemberData(nameof(BadTables))]
    public void A_table_that_cannot_be_right_is_refused((double C, double Days)[] points) =>
        Assert.Throws<ArgumentException>(() => StageModels.FromTable(Species.CutthroatTrout, Stage.Hatch, points, "own notes"));

    // Steelhead shares the rainbow curve.
    [Fact]
    public void Steelhead_and_rainbow_trout_hatch_alike()
    {
        Assert.True(StageModels.TryFind(Species.Steelhead, Stage.Hatch, out var steelhead, out _));
        Assert.True(StageModels.TryFind(Species.RainbowTrout, Stage.Hatch, out var rainbow, out _));
        Assert.Equal(rainbow.RateAt(new Celsius(9)), steelhead.RateAt(new Celsius(9)));
    }
}
