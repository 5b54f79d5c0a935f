using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class AssessmentTests
{
    private static readonly Observation Bad = new() { WaterC = 16, Moving = false, ChillerRunning = false, DeadEggs = 60 };

    [Fact]
    public void A_tank_without_fish_is_never_judged()
    {
        Assert.Empty(TankStory.Eggs().Fish(0).Seen(0, 9, Bad).Findings());
        Assert.Empty(TankStory.Eggs().Fish(-3).Seen(0, 9, Bad).Findings());
        Assert.NotEmpty(TankStory.Eggs().Fish(1).Seen(0, 9, Bad).Findings());
    }

    [Fact]
    public void A_tank_that_never_received_eggs_is_never_judged()
    {
        var record = TankStory.Eggs().Seen(0, 9, Bad).Record with { Lot = null };

        Assert.Empty(Assessment.Assess(record, TankStory.At(0, 12)));
    }

    [Fact]
    public void A_well_tank_has_no_findings() =>
        Assert.Empty(TankStory.Eggs().Seen(0, 9, new Observation { WaterC = 10.5, Moving = true, Bubbles = true, ChillerRunning = true, DeadEggs = 0 }).Findings());

    [Fact]
    public void Everything_that_is_wrong_is_found_once()
    {
        var found = TankStory.Eggs().Water(-1, 9, 10.5).Seen(0, 9, Bad).Findings();

        Assert.Equal([FlagKind.Warm, FlagKind.WarmingFast, FlagKind.ChillerFault, FlagKind.PumpFault, FlagKind.DieOff], found.Select(f => f.Kind));
    }

    [Fact]
    public void The_same_record_at_the_same_moment_gives_the_same_findings()
    {
        var tank = TankStory.Eggs().Water(-1, 9, 10.5).Seen(0, 9, Bad);

        Assert.Equal(tank.Findings(), tank.Findings());
    }

    [Fact]
    public void Cold_water_for_this_week_and_a_late_hatch_do_not_hasten_the_silence()
    {
        var cool = TankStory.Eggs().Tank(t => t with { SetPointC = 6 });

        Assert.DoesNotContain(cool.Water(-5, 9, 3.5).Findings(-2, 16), f => f.Kind == FlagKind.Silent);
        Assert.Contains(cool.Water(-5, 10, 1.5).Findings(-2, 16), f => f.Kind == FlagKind.Silent);
    }

    [Fact]
    public void An_old_reading_that_comes_late_changes_nothing_newer()
    {
        var before = TankStory.Eggs().Water(0, 9, 16).Findings();
        var after = TankStory.Eggs().Water(0, 9, 16).Water(-3, 9, 10).Findings();

        Assert.Equal(before, after.Where(f => f.Kind == FlagKind.Warm));
    }
}
