using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class ChlorineRulesTests
{
    private static readonly Observation Changed = new() { WaterChangedPercent = 30 };

    private static readonly Observation Gasps = new() { Gasping = true };

    private static Finding? Chlorine(TankStory tank, int day = 0, int hour = 12) => ChlorineRules.Chlorine(tank.Situation(day, hour));

    private static Observation Tested(double mgL) => new() { ChlorineMgL = mgL };

    private static ChlorineEvidence Numbers(Finding? found) => Assert.IsType<ChlorineEvidence>(found!.Evidence);

    [Theory]
    [InlineData(0.02, false)]
    [InlineData(0.03, true)]
    public void Any_test_over_the_limit_is_for_now(double mgL, bool flagged)
    {
        var found = Chlorine(TankStory.Eggs().Seen(0, 9, Tested(mgL)));

        Assert.Equal(flagged ? Urgency.ActNow : null, found?.Urgency);
        Assert.Equal(flagged ? TankStory.At(0, 9) : null, found?.StandsOn);
    }

    [Fact]
    public void Much_of_it_kills_sooner_and_the_hours_are_said()
    {
        double Hours(double mgL) => Chlorine(TankStory.Fry().Seen(0, 9, Tested(mgL)))!.Hazard.HoursLeft!.Value.Mid;

        Assert.Equal((6.0, 6.0, 2.0), (Hours(0.05), Hours(0.29), Hours(0.3)));
    }

    [Fact]
    public void Gasping_after_a_water_change_needs_no_test()
    {
        var found = Chlorine(TankStory.Fry().Seen(0, 8, Changed).Seen(0, 9, Gasps));
        var numbers = Numbers(found);

        Assert.Equal((FlagKind.Chlorine, Urgency.ActNow, TankStory.At(0, 9)), (found!.Kind, found.Urgency, found.StandsOn));
        Assert.Equal((null, TankStory.At(0, 9), TankStory.At(0, 8), 30.0), (numbers.MgL, numbers.GaspingAt, numbers.ChangedAt, numbers.ChangedPercent));
        Assert.InRange(found.Hazard.HoursLeft!.Value.Low, 0.5, 1);
    }

    [Fact]
    public void Both_may_be_said_in_one_reading() =>
        Assert.NotNull(Chlorine(TankStory.Fry().Seen(0, 9, new Observation { WaterChangedPercent = 20, Gasping = true })));

    [Theory]
    [InlineData(-1, 9, true)]
    [InlineData(-1, 8.9, false)]
    [InlineData(0, 9.5, false)]
    public void The_change_has_to_lie_within_the_day_before(int day, double hour, bool flagged) =>
        Assert.Equal(flagged, Chlorine(TankStory.Fry().Seen(day, hour, Changed).Seen(0, 9, Gasps)) is not null);

    [Fact]
    public void No_water_changed_is_no_water_change() =>
        Assert.Null(Chlorine(TankStory.Fry().Seen(0, 8, new Observation { WaterChangedPercent = 0 }).Seen(0, 9, Gasps)));

    [Fact]
    public void Fish_that_go_on_gasping_are_still_after_that_change()
    {
        var found = Chlorine(TankStory.Fry().Seen(0, 8, Changed).Seen(0, 9, Gasps).Seen(1, 9, Gasps), 1);

        Assert.Equal(TankStory.At(0, 9), Numbers(found).GaspingAt);
    }

    [Fact]
    public void A_test_of_none_or_fish_that_breathe_end_it()
    {
        var gasping = TankStory.Fry().Seen(0, 8, Changed).Seen(0, 9, Gasps);

        Assert.Null(Chlorine(gasping.Seen(0, 10, Tested(0))));
        Assert.Null(Chlorine(TankStory.Fry().Seen(0, 8, Changed).Seen(0, 9, Gasps).Seen(0, 10, new Observation { Gasping = false })));
        Assert.Null(Chlorine(TankStory.Fry().Seen(0, 9, Tested(0.1)).Seen(0, 10, Tested(0))));
        Assert.NotNull(Chlorine(TankStory.Fry().Seen(0, 9, Tested(0.1)).Seen(0, 10, new Observation { Gasping = false })));
    }

    [Fact]
    public void A_test_of_none_from_before_the_change_says_nothing() =>
        Assert.NotNull(Chlorine(TankStory.Fry().Seen(0, 7, Tested(0)).Seen(0, 8, Changed).Seen(0, 9, Gasps)));

    [Fact]
    public void An_old_test_that_comes_late_changes_nothing() => Assert.Equal(
        Chlorine(TankStory.Fry().Seen(0, 9, Tested(0.1))),
        Chlorine(TankStory.Fry().Seen(0, 9, Tested(0.1)).Seen(-2, 9, Tested(0))));

    [Theory]
    [InlineData(Disinfectant.Chlorine)]
    [InlineData(Disinfectant.Chloramine)]
    [InlineData(Disinfectant.None)]
    public void What_the_tap_water_carries_goes_with_it(Disinfectant disinfectant) =>
        Assert.Equal(disinfectant, Numbers(Chlorine(TankStory.Fry().Tank(t => t with { Disinfectant = disinfectant }).Seen(0, 9, Tested(0.1)))).Disinfectant);

    [Fact]
    public void A_test_and_gasping_are_told_together()
    {
        var found = Chlorine(TankStory.Fry().Seen(0, 8, Changed).Seen(0, 9, Gasps).Seen(0, 10, Tested(0.1)));

        Assert.Equal((0.1, TankStory.At(0, 9), TankStory.At(0, 10)), (Numbers(found).MgL!.Value, Numbers(found).GaspingAt!.Value, found!.StandsOn));
    }
}
