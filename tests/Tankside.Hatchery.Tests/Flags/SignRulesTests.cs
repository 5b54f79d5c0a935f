using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>What somebody at the tank sees or feels without a number.</summary>
public class SignRulesTests
{
    private static TankStory Said(Observation seen) => TankStory.Alevins().Water(-1, 9, 10.6).Seen(0, 9, seen);

    private static Finding? Found(TankStory tank, FlagKind kind, int day = 0) => tank.Findings(day).SingleOrDefault(f => f.Kind == kind);

    [Fact]
    public void Water_that_feels_warm_is_asked_for_a_number()
    {
        var found = Found(Said(new Observation { FeelsWarm = true }), FlagKind.Warm);

        Assert.Equal(
            (Urgency.Today, new SaidWarmEvidence(LifeStage.Alevin, TankStory.At(0, 9), 10.6, TankStory.At(-1, 9))),
            (found!.Urgency, found.Evidence));
    }

    [Fact]
    public void A_temperature_read_since_or_in_the_same_look_answers_it()
    {
        Assert.Null(Found(Said(new Observation { FeelsWarm = true }).Water(0, 10, 10.8), FlagKind.Warm));
        Assert.Null(Found(Said(new Observation { FeelsWarm = true, WaterC = 10.8 }), FlagKind.Warm));
    }

    [Fact]
    public void A_number_over_the_limit_says_more_than_a_hand() =>
        Assert.IsType<TemperatureEvidence>(Found(Said(new Observation { FeelsWarm = true, WaterC = 16 }), FlagKind.Warm)!.Evidence);

    [Fact]
    public void Water_on_the_floor_is_for_now_and_goes_when_it_is_said_to_be_dry()
    {
        var wet = Said(new Observation { WaterOnFloor = true, Moving = true, Bubbles = true });

        Assert.Equal((Urgency.ActNow, new LeakEvidence(LifeStage.Alevin, TankStory.At(0, 9))), (Found(wet, FlagKind.PumpFault)!.Urgency, Found(wet, FlagKind.PumpFault)!.Evidence));
        Assert.NotNull(Found(wet.Seen(0, 10, new Observation { Moving = true, Bubbles = true }), FlagKind.PumpFault));
        Assert.Null(Found(wet.Seen(0, 11, new Observation { WaterOnFloor = false }), FlagKind.PumpFault));
    }

    [Fact]
    public void Cloudy_water_asks_for_an_ammonia_test_within_the_week()
    {
        var cloudy = TankStory.Fry().Water(-2, 9, 10.6).Seen(-1, 9, new Observation { Clear = false }).Seen(0, 9, new Observation { Clear = false });

        var found = Found(cloudy, FlagKind.Ammonia);
        Assert.Equal(
            (Urgency.ThisWeek, new CloudyEvidence(LifeStage.Fry, TankStory.At(0, 9), TankStory.At(-1, 9))), (found!.Urgency, found.Evidence));
    }

    [Theory]
    [InlineData(0, 10, true, null)]
    [InlineData(0, 10, null, 0.0)]
    public void A_clear_look_or_a_test_ends_the_question(int day, double hour, bool? clear, double? ammonia) => Assert.Null(
        Found(TankStory.Fry().Seen(0, 9, new Observation { Clear = false }).Seen(day, hour, new Observation { Clear = clear, AmmoniaTotalMgL = ammonia }), FlagKind.Ammonia));

    [Fact]
    public void A_bad_test_says_more_than_cloudiness() => Assert.IsType<AmmoniaEvidence>(
        Found(Said(new Observation { Clear = false, AmmoniaTotalMgL = 4, Ph = 8 }), FlagKind.Ammonia)!.Evidence);

    [Fact]
    public void Foam_after_the_hatch_is_no_trouble_unless_somebody_says_nothing_else()
    {
        Assert.Null(Found(Said(new Observation { Clear = false, Moving = true }), FlagKind.Ammonia));
        Assert.NotNull(Found(Said(new Observation { Clear = false, Moving = true }).With(Limits.FoamDays, 2), FlagKind.Ammonia));
        Assert.NotNull(Found(Said(new Observation { Clear = false }), FlagKind.Ammonia));
    }

    [Fact]
    public void A_word_on_cloudy_water_is_old_after_two_days()
    {
        var cloudy = TankStory.Fry().Seen(0, 13, new Observation { Clear = false });

        Assert.NotNull(Found(cloudy, FlagKind.Ammonia, day: 2));
        Assert.Null(Found(cloudy, FlagKind.Ammonia, day: 3));
    }
}
