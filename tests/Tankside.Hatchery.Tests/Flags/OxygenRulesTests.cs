using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class OxygenRulesTests
{
    private static Finding? Oxygen(TankStory tank, int day = 0, int hour = 12) => OxygenRules.LowOxygen(tank.Situation(day, hour));

    private static Observation Measured(double mgL, double celsius = 10) =>
        new() { OxygenMgL = mgL, WaterC = celsius, Moving = true, Bubbles = true };

    private static Observation Gasps(bool gasping) => new() { Gasping = gasping };

    private static OxygenEvidence Numbers(Finding? found) => Assert.IsType<OxygenEvidence>(found!.Evidence);

    [Theory]
    [InlineData(LifeStage.Egg, 8.0, null)]
    [InlineData(LifeStage.Egg, 7.9, Urgency.Today)]
    [InlineData(LifeStage.Egg, 6.5, Urgency.Today)]
    [InlineData(LifeStage.Egg, 6.4, Urgency.ActNow)]
    [InlineData(LifeStage.Alevin, 6.4, Urgency.ActNow)]
    [InlineData(LifeStage.Fry, 6.5, null)]
    [InlineData(LifeStage.Fry, 6.4, Urgency.Today)]
    [InlineData(LifeStage.Fry, 5.0, Urgency.Today)]
    [InlineData(LifeStage.Fry, 4.9, Urgency.ActNow)]
    public void Each_stage_has_its_two_limits(LifeStage stage, double mgL, Urgency? urgency)
    {
        var found = Oxygen(TankStory.Of(stage).Seen(0, 9, Measured(mgL)));

        Assert.Equal(urgency, found?.Urgency);
        Assert.All(found is null ? [] : new[] { found }, f => Assert.Equal((FlagKind.LowOxygen, TankStory.At(0, 9)), (f.Kind, f.StandsOn)));
    }

    [Theory]
    [InlineData(0, 7.95, true)]
    [InlineData(2500, 7.95, false)] // 8.3 mg/L is all that water of 10 °C holds there.
    [InlineData(2500, 7.4, true)] // 89% of it.
    [InlineData(2500, 7.6, false)] // 91%.
    public void A_full_tank_high_up_is_not_flagged_for_what_it_cannot_reach(double metres, double mgL, bool flagged) =>
        Assert.Equal(flagged, Oxygen(TankStory.Eggs().Tank(t => t with { ElevationM = metres }).Seen(0, 9, Measured(mgL))) is not null);

    [Fact]
    public void At_five_thousand_feet_a_full_tank_at_12_degrees_is_well() =>
        Assert.Null(Oxygen(TankStory.Eggs().Tank(t => t with { ElevationM = 1524 }).Seen(0, 9, Measured(8.9, 12))));

    [Fact]
    public void The_percentage_is_of_what_the_water_holds() =>
        Assert.Equal(44.3, Numbers(Oxygen(TankStory.Fry().Seen(0, 9, Measured(5)))).Percent!.Value, 1); // 11.288 mg/L at 10 °C

    [Fact]
    public void Two_readings_of_the_tanks_own_give_the_hours()
    {
        var found = Oxygen(TankStory.Fry().Seen(0, 8, Measured(8)).Seen(0, 10, Measured(6)));
        var hours = found!.Hazard.HoursLeft!.Value;

        Assert.Equal(2, hours.Mid, 6); // 1 mg/L an hour, 2 mg/L above 4
        Assert.InRange(hours.Low, 1.5, 1.7);
        Assert.InRange(hours.High, 2.6, 2.8);
        Assert.Equal(Urgency.ActNow, found.Urgency); // Under the look limit only, but gone before anybody is back tomorrow.
        Assert.Equal((8.0, TankStory.At(0, 8), TankStory.At(0, 12)), (Numbers(found).EarlierMgL!.Value, Numbers(found).EarlierAt!.Value, Numbers(found).PassesAt!.Mid));
    }

    [Fact]
    public void Eggs_in_a_basket_have_less_time_than_the_tank()
    {
        static double Hours(TankStory tank) => Oxygen(tank.Seen(0, 8, Measured(9)).Seen(0, 10, Measured(7)))!.Hazard.HoursLeft!.Value.Mid;

        Assert.Equal(1, Hours(TankStory.Eggs()), 6); // to 6, not to 5
        Assert.Equal(2, Hours(TankStory.Eggs().With(Limits.OxygenBasket, 0)), 6);
    }

    [Theory]
    [InlineData(12.1)]
    [InlineData(0.4)]
    public void Readings_too_far_apart_or_too_near_show_no_pace(double hoursBefore) =>
        Assert.Null(Numbers(Oxygen(TankStory.Fry().Seen(0, 10 - hoursBefore, Measured(8)).Seen(0, 10, Measured(6)))).EarlierMgL);

    [Fact]
    public void A_loggers_pace_is_taken_over_two_hours()
    {
        var tank = TankStory.Fry();
        for (var minute = 0; minute <= 240; minute += 5)
        {
            tank.Seen(0, 8 + (minute / 60.0), Measured(8 - (minute / 120.0)));
        }

        Assert.Equal(TankStory.At(0, 10), Numbers(Oxygen(tank)).EarlierAt);
    }

    [Fact]
    public void Low_and_steady_in_moving_water_has_no_known_time()
    {
        Assert.Null(Oxygen(TankStory.Fry().Seen(0, 8, Measured(6)).Seen(0, 10, Measured(6)))!.Hazard.HoursLeft);
        Assert.Null(Oxygen(TankStory.Fry().Seen(0, 10, Measured(4.5)))!.Hazard.HoursLeft);
        Assert.Null(Numbers(Oxygen(TankStory.Fry().Seen(0, 10, Measured(4.5)))).PassesAt);
    }

    [Fact]
    public void In_still_water_the_budget_from_the_measured_level_gives_the_hours()
    {
        static Finding Still(double mgL) => Oxygen(TankStory.Fry().Seen(0, 9, new Observation { OxygenMgL = mgL, WaterC = 10, Moving = false }))!;

        var (higher, lower) = (Still(6.4).Hazard.HoursLeft!.Value, Still(5.4).Hazard.HoursLeft!.Value);
        Assert.True(higher.Low < higher.Mid && higher.Mid < higher.High);
        Assert.InRange(lower.Mid, 0.5, higher.Mid * 0.7);
    }

    [Fact]
    public void Heaped_eggs_in_still_water_have_hours_not_days()
    {
        var found = Oxygen(TankStory.Eggs().Seen(0, 9, new Observation { OxygenMgL = 7.5, Moving = false }))!;

        Assert.InRange(found.Hazard.HoursLeft!.Value.Mid, 1, 6);
    }

    [Fact]
    public void At_the_hours_left_limit_no_time_is_left()
    {
        var found = Oxygen(TankStory.Fry().Seen(0, 9, Measured(4)))!;

        Assert.Equal(0, found.Hazard.HoursLeft!.Value.High);
        Assert.InRange(found.Hazard.LostBy(TankStory.At(0, 11)), 0.3, 0.5);
    }

    [Fact]
    public void Gasping_fish_without_a_test_are_short_of_air_until_shown_otherwise()
    {
        var found = Oxygen(TankStory.Fry().Seen(0, 9, Gasps(true)));

        Assert.Equal((Urgency.ActNow, TankStory.At(0, 9)), (found!.Urgency, found.StandsOn));
        Assert.Equal((null, true), (Numbers(found).MgL, Numbers(found).Gasping));
        Assert.Null(Oxygen(TankStory.Fry().Seen(0, 9, Gasps(true)).Seen(0, 10, Gasps(false))));
        Assert.Null(Oxygen(TankStory.Fry().Seen(0, 9, Gasps(true)).Seen(0, 10, Measured(9))));
        Assert.NotNull(Oxygen(TankStory.Fry().Seen(0, 8, Measured(9)).Seen(0, 9, Gasps(true))));
    }

    [Fact]
    public void Fish_that_gasp_over_low_oxygen_are_for_now() =>
        Assert.Equal(Urgency.ActNow, Oxygen(TankStory.Fry().Seen(0, 9, Measured(6)).Seen(0, 10, Gasps(true)))!.Urgency);

    [Fact]
    public void Gasping_after_a_water_change_is_told_as_chlorine_not_as_air() =>
        Assert.Null(Oxygen(TankStory.Fry().Seen(0, 8, new Observation { WaterChangedPercent = 30 }).Seen(0, 9, Gasps(true))));

    [Fact]
    public void A_newer_good_test_ends_it_and_an_old_one_that_comes_late_does_not()
    {
        Assert.Null(Oxygen(TankStory.Fry().Seen(0, 9, Measured(4.5)).Seen(0, 11, Measured(8))));
        Assert.Equal(
            Oxygen(TankStory.Fry().Seen(0, 9, Measured(4.5))),
            Oxygen(TankStory.Fry().Seen(0, 9, Measured(4.5)).Seen(-3, 9, Measured(11))));
    }

    [Fact]
    public void A_test_speaks_for_four_days()
    {
        Assert.NotNull(Oxygen(TankStory.Fry().Seen(0, 9, Measured(4.5)), 4, 9));
        Assert.Null(Oxygen(TankStory.Fry().Seen(0, 9, Measured(4.5)), 4, 10));
    }

    [Fact]
    public void Still_water_and_low_oxygen_are_one_danger()
    {
        var both = TankStory.Fry().Seen(0, 9, new Observation { OxygenMgL = 4.5, WaterC = 10, Moving = false }).Findings();

        Assert.Equal([FlagKind.PumpFault, FlagKind.LowOxygen], both.Select(f => f.Kind));
        Assert.Single(both.Select(f => Dangers.Of(f.Kind)).Distinct());
    }
}
