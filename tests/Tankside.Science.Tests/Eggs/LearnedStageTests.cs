using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Eggs;

public class LearnedStageTests
{
    private static readonly StageModel Hatch = ModelOf(Species.RainbowTrout, Stage.Hatch);
    private static readonly StageModel SwimUp = ModelOf(Species.RainbowTrout, Stage.SwimUp);
    private static readonly HatchLook Look = new(0.1, 0.03, 0.04, OutsideRange: false);

    private static LearningVessel Vessel(StageModel stage, bool stageOutside = false) => new()
    {
        Hatch = Hatch,
        Stage = stage,
        HatchStartSd = 0.03,
        StageStartSd = stage.Stage == Stage.Hatch ? 0.03 : 0.03 / 1.7,
        OwnSd = 0.03,
        StageOutside = stageOutside,
    };

    private static LearnedStage Of(LearningVessel vessel, int? own, params HatchLook[] looks) => LearnedStage.Of(
        LotLearning.From(LearnedStage.SharedSd(vessel.Hatch, vessel.HatchStartSd), LearnedStage.OutsideSd(vessel.Hatch), looks), own, vessel);

    private static double Both(LearnedStage stage) => Math.Sqrt((stage.ModelSd * stage.ModelSd) + (stage.StartSd * stage.StartSd));

    [Theory]
    [InlineData(Stage.Hatch)]
    [InlineData(Stage.SwimUp)]
    public void Nothing_seen_leaves_rule_and_start_as_they_were(Stage stage)
    {
        var vessel = Vessel(stage == Stage.Hatch ? Hatch : SwimUp);
        var learned = Of(vessel, own: null);

        Assert.Equal(1, learned.Fraction, 12);
        Assert.Equal(Math.Sqrt((vessel.Stage.LogSd * vessel.Stage.LogSd) + (0.03 * 0.03)), learned.ModelSd, 12);
        Assert.Equal(vessel.StageStartSd, learned.StartSd, 12);
    }

    [Fact]
    public void A_siblings_hatch_moves_and_sharpens_the_hatch_by_hand()
    {
        // S² = 0.0064 + 0.0009, R = 0.0025, y = 0.1.
        var learned = Of(Vessel(Hatch), own: null, Look);

        Assert.Equal(Math.Exp(0.1 * 0.0073 / 0.0098), learned.Fraction, 12);
        Assert.Equal(Math.Sqrt((0.0073 * 0.0025 / 0.0098) + 0.0009), Both(learned), 12);
    }

    [Fact]
    public void Swim_up_learns_less_than_the_hatch_and_more_from_the_vessels_own()
    {
        var looks = Enumerable.Repeat(Look, 6).ToArray();
        double Left(StageModel stage, int? own) => Both(Of(Vessel(stage), own, looks)) / Both(Of(Vessel(stage), null));

        Assert.InRange(Left(Hatch, null), 0.3, 0.6);
        Assert.InRange(Left(SwimUp, null), Left(Hatch, null) + 0.05, 0.9);
        Assert.True(Left(SwimUp, own: 0) < Left(SwimUp, null));
        Assert.True(Of(Vessel(SwimUp), null, looks).Fraction > 1.05);
    }

    [Fact]
    public void Outside_the_range_of_the_swim_ups_rule_what_comes_on_top_is_not_learned()
    {
        var inside = Of(Vessel(SwimUp), null, Look, Look);
        var outside = Of(Vessel(SwimUp, stageOutside: true), null, Look, Look);

        Assert.Equal(inside.Fraction, outside.Fraction, 12);
        var extra = 3 * ((SwimUp.LogSd * SwimUp.LogSd) + (0.03 * 0.03));
        Assert.Equal(Math.Sqrt((Both(inside) * Both(inside)) + extra), Both(outside), 9);
    }

    [Fact]
    public void A_separate_fit_of_emergence_takes_over_a_part_of_the_hatchs_error()
    {
        var (hatch, emergence) = (ModelOf(Species.CohoSalmon, Stage.Hatch), ModelOf(Species.CohoSalmon, Stage.SwimUp));
        var vessel = new LearningVessel { Hatch = hatch, Stage = emergence, OwnSd = 0.03 };

        // One look of no own error to speak of: the shared error is known, and 0.7 of it goes on.
        var learned = Of(vessel, null, new HatchLook(0.1, 1e-6, 1e-6, false));

        Assert.Equal(Math.Exp(0.7 * 0.1), learned.Fraction, 6);
        Assert.Equal(Math.Sqrt((0.07 * 0.07 * (1 - 0.49)) + (0.03 * 0.03)), learned.ModelSd, 6);
    }

    [Fact]
    public void The_spreads_of_a_hatch_are_those_of_their_sources()
    {
        double Days(Species species, double c)
        {
            Assert.True(ModelOf(species, Stage.Hatch).TryDaysAt(new Celsius(c), out var time));
            return time.Days * HatchSpread.FirstToLast(species);
        }

        Assert.InRange(Days(Species.RainbowTrout, 10), 2, 4);
        Assert.InRange(Days(Species.CohoSalmon, 6), 7, 21);
        Assert.InRange(10 * Days(Species.BrownTrout, 10), 5, 34);
    }

    private static StageModel ModelOf(Species species, Stage stage) =>
        StageModels.TryFind(species, stage, out var model, out var why) ? model : throw new InvalidOperationException(why);
}
