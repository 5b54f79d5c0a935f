using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class TemperatureRulesTests
{
    private static Finding? Warm(TankStory tank) => WarmRules.TooWarmForTheStage(tank.Situation());

    private static Finding? Cold(TankStory tank) => ColdRules.TooColdForTheStage(tank.Situation());

    private static double LimitOf(Finding found) => Assert.IsType<TemperatureEvidence>(found.Evidence).Limit;

    [Theory]
    [InlineData(LifeStage.Egg, 12.19)]
    [InlineData(LifeStage.Alevin, 12.19)]
    [InlineData(LifeStage.Fry, 15.59)]
    public void Water_just_under_the_first_limit_is_not_warm(LifeStage stage, double celsius) =>
        Assert.Null(Warm(TankStory.Of(stage).Water(0, 9, celsius)));

    [Theory]
    [InlineData(LifeStage.Egg, 12.2, 12.2, Urgency.Today)]
    [InlineData(LifeStage.Egg, 14.99, 12.2, Urgency.Today)]
    [InlineData(LifeStage.Egg, 15, 15, Urgency.ActNow)]
    [InlineData(LifeStage.Alevin, 12.2, 12.2, Urgency.Today)]
    [InlineData(LifeStage.Alevin, 15, 15, Urgency.ActNow)]
    [InlineData(LifeStage.Fry, 15.6, 15.6, Urgency.Today)]
    [InlineData(LifeStage.Fry, 18.29, 15.6, Urgency.Today)]
    [InlineData(LifeStage.Fry, 18.3, 18.3, Urgency.ActNow)]
    public void Water_at_or_over_a_limit_of_its_stage_is_warm(LifeStage stage, double celsius, double limit, Urgency urgency)
    {
        var found = Warm(TankStory.Of(stage).Water(0, 9, celsius));

        Assert.NotNull(found);
        Assert.Equal((FlagKind.Warm, urgency, TankStory.At(0, 9)), (found.Kind, found.Urgency, found.StandsOn));
        Assert.Equal(new TemperatureEvidence(stage, celsius, TankStory.At(0, 9), limit, TankStory.At(0, 9), 10.5), found.Evidence);
    }

    [Theory]
    [InlineData(15, 0.3)]
    [InlineData(17, 0.5)]
    [InlineData(25, 0.9)]
    public void Each_degree_over_the_act_limit_costs_a_tenth_more_up_to_nine_in_ten(double celsius, double share) =>
        Assert.Equal(share, Warm(TankStory.Eggs().Water(0, 9, celsius))!.Hazard.ShareLost, 9);

    [Theory]
    [InlineData(LifeStage.Egg, 4.01)]
    [InlineData(LifeStage.Alevin, 4.01)]
    [InlineData(LifeStage.Fry, 3.01)]
    public void Water_just_over_the_cold_limit_is_not_cold(LifeStage stage, double celsius) =>
        Assert.Null(Cold(TankStory.Of(stage).Tank(t => t with { SetPointC = 6 }).Water(0, 9, celsius)));

    [Theory]
    [InlineData(LifeStage.Egg, 4, 4, Urgency.ThisWeek)]
    [InlineData(LifeStage.Egg, 2.01, 4, Urgency.ThisWeek)]
    [InlineData(LifeStage.Egg, 2, 2, Urgency.Today)]
    [InlineData(LifeStage.Alevin, 4, 4, Urgency.ThisWeek)]
    [InlineData(LifeStage.Alevin, 2, 2, Urgency.Today)]
    [InlineData(LifeStage.Fry, 3, 3, Urgency.ThisWeek)]
    [InlineData(LifeStage.Fry, 1.01, 3, Urgency.ThisWeek)]
    [InlineData(LifeStage.Fry, 1, 1, Urgency.Today)]
    public void Water_at_or_under_a_cold_limit_of_its_stage_is_cold(LifeStage stage, double celsius, double limit, Urgency urgency)
    {
        var found = Cold(TankStory.Of(stage).Tank(t => t with { SetPointC = 6 }).Water(0, 9, celsius));

        Assert.NotNull(found);
        Assert.Equal((FlagKind.Cold, urgency, limit), (found.Kind, found.Urgency, LimitOf(found)));
    }

    [Fact]
    public void Cold_water_that_a_frozen_coil_explains_is_an_iced_coil_instead()
    {
        var tank = TankStory.Eggs().Water(0, 9, 3.3);

        Assert.Null(Cold(tank));
        Assert.NotNull(IceRules.IcedCoil(tank.Situation()));
    }

    [Fact]
    public void The_newest_reading_by_the_time_it_was_read_decides()
    {
        Assert.Null(Warm(TankStory.Eggs().Water(0, 10, 11).Water(0, 9, 16)));
        Assert.NotNull(Warm(TankStory.Eggs().Water(0, 9, 16).Water(0, 8, 11)));
    }

    [Fact]
    public void A_reading_without_water_does_not_end_the_warmth() =>
        Assert.NotNull(Warm(TankStory.Eggs().Water(0, 9, 16).Seen(0, 10, new Observation { Moving = true })));

    [Fact]
    public void It_is_warm_since_the_first_reading_of_the_unbroken_run()
    {
        var found = Warm(TankStory.Eggs().Water(-2, 9, 13).Water(-1, 9, 11).Water(-1, 14, 12.5).Seen(-1, 15, new Observation { Clear = true }).Water(0, 9, 13));

        Assert.Equal(TankStory.At(-1, 14), Assert.IsType<TemperatureEvidence>(found!.Evidence).Since);
    }

    [Fact]
    public void A_programmes_own_limit_wins_over_the_default()
    {
        Assert.Null(Warm(TankStory.Eggs().With(Limits.WarmLookEgg, 13).Water(0, 9, 12.9)));
        Assert.Equal(13, LimitOf(Warm(TankStory.Eggs().With(Limits.WarmLookEgg, 13).Water(0, 9, 13))!));
    }

    [Fact]
    public void A_tank_without_a_temperature_is_neither_warm_nor_cold()
    {
        Assert.Null(Warm(TankStory.Eggs()));
        Assert.Null(Cold(TankStory.Eggs()));
    }
}
