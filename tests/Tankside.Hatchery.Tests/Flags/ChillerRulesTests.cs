using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Tests.Flags;

public class ChillerRulesTests
{
    private static readonly Observation Off = new() { ChillerRunning = false };

    private static Finding? Chiller(TankStory tank) => ChillerRules.ChillerReportedOff(tank.Situation());

    private static Finding? Ice(TankStory tank) => IceRules.IcedCoil(tank.Situation());

    [Theory]
    [InlineData(10.5, Urgency.Today)]
    [InlineData(11.49, Urgency.Today)]
    [InlineData(11.5, Urgency.ActNow)]
    [InlineData(14, Urgency.ActNow)]
    public void An_idle_chiller_is_a_question_at_the_set_point_and_a_fault_above_it(double celsius, Urgency urgency)
    {
        var found = Chiller(TankStory.Eggs().Seen(0, 9, Off with { WaterC = celsius }));

        Assert.Equal((FlagKind.ChillerFault, urgency, TankStory.At(0, 9)), (found!.Kind, found.Urgency, found.StandsOn));
    }

    [Fact]
    public void An_idle_chiller_over_water_that_nobody_read_is_a_fault() =>
        Assert.Equal(Urgency.ActNow, Chiller(TankStory.Eggs().Seen(0, 9, Off))!.Urgency);

    [Fact]
    public void A_question_weighs_as_much_as_the_chance_that_it_is_broken()
    {
        Assert.Equal(0.7 * 0.4, Chiller(TankStory.Eggs().Seen(0, 9, Off with { WaterC = 10.5 }))!.Hazard.ShareLost, 9);
        Assert.Equal(0.7, Chiller(TankStory.Eggs().Seen(0, 9, Off with { WaterC = 13 }))!.Hazard.ShareLost, 9);
    }

    [Fact]
    public void It_was_resting_when_the_water_is_still_cold_later()
    {
        Assert.Null(Chiller(TankStory.Eggs().Seen(0, 9, Off).Water(0, 11, 10.6)));
        Assert.NotNull(Chiller(TankStory.Eggs().Seen(0, 9, Off).Water(0, 11, 12)));
    }

    [Fact]
    public void Hours_run_from_the_newest_temperature_not_from_the_older_word()
    {
        var found = Chiller(TankStory.Eggs().Seen(-1, 15, Off with { WaterC = 11 }).Water(0, 9, 13))!;
        var asIfSaidNow = Chiller(TankStory.Eggs().Seen(0, 9, Off with { WaterC = 13 }))!;

        Assert.Equal((TankStory.At(-1, 15), asIfSaidNow.Hazard), (found.StandsOn, found.Hazard));
        Assert.Equal(((ChillerEvidence)asIfSaidNow.Evidence).PassesAt, ((ChillerEvidence)found.Evidence).PassesAt);
    }

    [Fact]
    public void An_older_temperature_does_not_set_the_clock_back()
    {
        var found = Chiller(TankStory.Eggs().Water(-1, 9, 13).Seen(0, 9, Off))!;

        Assert.Equal(TankStory.At(0, 9), found.Hazard.From);
    }

    [Fact]
    public void Water_that_comes_back_has_no_hours_running_until_it_rises_again()
    {
        var back = Chiller(TankStory.Eggs().Seen(-1, 15, Off with { WaterC = 14.5 }).Water(0, 9, 13))!;
        var again = Chiller(TankStory.Eggs().Seen(-1, 15, Off with { WaterC = 14.5 }).Water(0, 9, 13).Water(0, 11, 13.4))!;
        var refilled = Chiller(TankStory.Eggs().Seen(-1, 15, Off with { WaterC = 14.5 }).Seen(0, 9, new Observation { WaterC = 13, WaterChangedPercent = 30 }))!;

        Assert.Equal((Urgency.Today, null, null), (back.Urgency, back.Hazard.HoursLeft, ((ChillerEvidence)back.Evidence).PassesAt));
        Assert.Equal((Urgency.ActNow, true), (again.Urgency, again.Hazard.HoursLeft is not null));
        Assert.Equal((Urgency.ActNow, true), (refilled.Urgency, refilled.Hazard.HoursLeft is not null));
    }

    [Fact]
    public void The_newest_word_on_the_chiller_counts()
    {
        Assert.Null(Chiller(TankStory.Eggs().Seen(0, 9, Off).Seen(0, 10, new Observation { ChillerRunning = true })));
        Assert.NotNull(Chiller(TankStory.Eggs().Seen(0, 9, Off).Seen(0, 10, new Observation { Moving = true })));
        Assert.Null(Chiller(TankStory.Eggs().Water(0, 9, 10.5)));
    }

    [Theory]
    [InlineData(Species.RainbowTrout, 15)]
    [InlineData(Species.BrownTrout, 14)]
    public void Hours_are_counted_to_the_heat_limit_of_the_eggs(Species species, double limit)
    {
        var found = Chiller(TankStory.Eggs().Lot(l => l with { Species = species }).Seen(0, 9, Off with { WaterC = 12 }))!;
        var evidence = Assert.IsType<ChillerEvidence>(found.Evidence);

        Assert.Equal(limit, evidence.Limit);
        Assert.Equal(found.Hazard.HoursLeft!.Value.Mid, (evidence.PassesAt!.Mid - TankStory.At(0, 9)).TotalHours, 6);
    }

    [Theory]
    [InlineData(LimitCase.Eggs, 15, 18.3)]
    [InlineData(LimitCase.Fry, 12, 20)]
    [InlineData(LimitCase.Fry, 20, 23)]
    [InlineData(LimitCase.BrownFry, 12, 18)]
    public void Where_the_first_limit_is_passed_time_runs_to_the_next(LimitCase which, double celsius, double limit)
    {
        var tank = which == LimitCase.Eggs ? TankStory.Eggs() : TankStory.Fry();
        tank.Lot(l => l with { Species = which == LimitCase.BrownFry ? Species.BrownTrout : Species.RainbowTrout })
            .Tank(t => t with { RoomC = 26 }).Seen(0, 9, Off with { WaterC = celsius });

        Assert.Equal(limit, Assert.IsType<ChillerEvidence>(Chiller(tank)!.Evidence).Limit);
    }

    [Fact]
    public void In_a_cold_room_the_limit_is_never_passed_and_no_hours_are_told()
    {
        var found = Chiller(TankStory.Eggs().Tank(t => t with { RoomC = 12 }).Seen(0, 9, Off with { WaterC = 11.5 }))!;

        Assert.Null(found.Hazard.HoursLeft);
        Assert.Equal(0.02, found.Hazard.ShareLost);
        Assert.Null(Assert.IsType<ChillerEvidence>(found.Evidence).Limit);
    }

    [Theory]
    [InlineData(false, false, true)]
    [InlineData(null, false, true)]
    [InlineData(false, null, true)]
    [InlineData(true, false, false)]
    [InlineData(null, null, false)]
    public void Chiller_and_flow_gone_together_point_to_the_power(bool? moving, bool? bubbles, bool all) =>
        Assert.Equal(all, ChillerRules.AllStopped(Off with { Moving = moving, Bubbles = bubbles }));

    [Theory]
    [InlineData(3.99, 6.01, true)]
    [InlineData(4, 6.01, false)]
    [InlineData(3.99, 6, false)]
    public void Water_far_colder_than_the_chiller_aims_for_means_ice(double celsius, double setPoint, bool ice) =>
        Assert.Equal(ice, Ice(TankStory.Eggs().Tank(t => t with { SetPointC = setPoint }).Water(0, 9, celsius)) is not null);

    [Fact]
    public void Ice_that_was_seen_counts_at_any_temperature()
    {
        var found = Ice(TankStory.Eggs().Seen(0, 9, new Observation { IceOnCoil = true, WaterC = 9 }))!;

        Assert.Equal((FlagKind.IcedCoil, Urgency.ActNow, TankStory.At(0, 9)), (found.Kind, found.Urgency, found.StandsOn));
        Assert.True(Assert.IsType<IceEvidence>(found.Evidence).Seen);
    }

    [Fact]
    public void Who_looks_and_sees_no_ice_is_believed_until_colder_water_is_read()
    {
        var none = new Observation { IceOnCoil = false, WaterC = 3.5 };

        Assert.Null(Ice(TankStory.Eggs().Seen(0, 8, new Observation { IceOnCoil = true }).Seen(0, 9, none)));
        Assert.False(Assert.IsType<IceEvidence>(Ice(TankStory.Eggs().Seen(0, 9, none).Water(0, 10, 3.4))!.Evidence).Seen);
    }

    public enum LimitCase
    {
        Eggs,
        Fry,
        BrownFry,
    }
}
