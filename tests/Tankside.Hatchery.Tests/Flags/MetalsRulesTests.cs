using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class MetalsRulesTests
{
    private static readonly Observation GoodTests = new() { Ph = 7.2, AmmoniaTotalMgL = 0.25, NitriteMgL = 0, ChlorineMgL = 0, WaterC = 10.5, Moving = true, Bubbles = true };

    private static Finding? Metals(TankStory tank, int day = 0) => MetalsRules.DeathsInGoodWater(tank.Situation(day));

    private static MetalsEvidence Numbers(Finding? found) => Assert.IsType<MetalsEvidence>(found!.Evidence);

    private static Observation Dead(int alevins) => new() { WaterC = 10.5, DeadAlevins = alevins };

    /// <summary>Hatched a week ago after calm weeks; then so many dead on each of these days, and the tests of the last one.</summary>
    private static TankStory Hatched(int[] dead, Observation tests)
    {
        var tank = TankStory.Alevins();
        for (var day = -25; day <= -8; day++)
        {
            tank.Seen(day, 9, new Observation { WaterC = 10.5, DeadEggs = 0 });
        }

        for (var i = 0; i < dead.Length; i++)
        {
            tank.Seen(i - dead.Length + 1, 9, Dead(dead[i]));
        }

        return tank.Seen(0, 10, tests);
    }

    private static TankStory Dying(Observation? tests = null) => Hatched([2, 2, 1, 3, 2], tests ?? GoodTests);

    [Fact]
    public void Deaths_that_begin_after_hatch_in_good_water_ask_for_metals()
    {
        var found = Metals(Dying());
        var numbers = Numbers(found);

        Assert.Equal((FlagKind.Metals, Urgency.Today, TankStory.At(0, 9)), (found!.Kind, found.Urgency, found.StandsOn));
        Assert.Equal((10, TankStory.Wednesday.AddDays(-4), TankStory.Wednesday), (numbers.Dead, numbers.FirstDay, numbers.LastDay));
        Assert.Equal((false, TankStory.Wednesday.AddDays(-7), 7.2, 0.25, 0.0), (numbers.AfterSwimUp, numbers.BegunOn, numbers.Ph, numbers.AmmoniaTotalMgL, numbers.NitriteMgL));
    }

    [Fact]
    public void Deaths_at_swim_up_do_too()
    {
        var tank = TankStory.Fry().Lot(l => l with { DeliveredOn = TankStory.Wednesday.AddDays(-60) })
            .Seen(-6, 8, new Observation { Swimming = Share.Most }).Seen(-20, 9, Dead(0));
        foreach (var day in Enumerable.Range(-4, 5))
        {
            tank.Seen(day, 9, new Observation { WaterC = 10.5, DeadFry = 2 });
        }

        Assert.Null(Metals(tank.Seen(0, 10, GoodTests))); // All swam two weeks ago: hunger comes first.
        Assert.True(Numbers(Metals(tank.With(Limits.MetalsOnset, 14))).AfterSwimUp);
    }

    public static TheoryData<Observation> BadWater => new()
    {
        new Observation { NitriteMgL = 0.06 },
        new Observation { AmmoniaTotalMgL = 2, Ph = 8 },
        new Observation { ChlorineMgL = 0.05 },
        new Observation { Ph = 6.4 },
        new Observation { Ph = 9.1 },
        new Observation { OxygenMgL = 6.4 },
        new Observation { WaterC = 12.2 },
        new Observation { WaterC = 2 },
        new Observation { Moving = false },
        new Observation { Bubbles = false },
        new Observation { Gasping = true },
        new Observation { Fungus = true },
        new Observation { IceOnCoil = true },
    };

    [Theory]
    [MemberData(nameof(BadWater))]
    public void Whatever_else_was_wrong_in_the_week_explains_the_deaths(Observation seen) => Assert.Null(Metals(Dying().Seen(-2, 14, seen)));

    [Fact]
    public void What_was_wrong_longer_ago_does_not() => Assert.NotNull(Metals(Dying().Seen(-8, 14, new Observation { NitriteMgL = 0.06 })));

    [Fact]
    public void Untested_water_is_not_good_water()
    {
        Assert.Null(Metals(Dying(GoodTests with { Ph = null })));
        Assert.Null(Metals(Dying(GoodTests with { AmmoniaTotalMgL = null })));
        Assert.NotNull(Metals(Dying(GoodTests with { NitriteMgL = null, ChlorineMgL = null })));
    }

    [Fact]
    public void One_bad_day_a_few_dead_or_deaths_that_have_stopped_are_not_the_pattern()
    {
        Assert.Null(Metals(Hatched([0, 0, 0, 0, 10], GoodTests)));
        Assert.Null(Metals(Hatched([0, 1, 1, 1, 7], GoodTests)));
        Assert.NotNull(Metals(Hatched([0, 1, 1, 1, 6], GoodTests)));
        Assert.Null(Metals(Hatched([1, 0, 1, 0, 1], GoodTests)));
        Assert.Null(Metals(Hatched([5, 5, 0, 0], GoodTests)));
        Assert.NotNull(Metals(Hatched([5, 5, 0], GoodTests)));
    }

    [Fact]
    public void Deaths_that_were_as_many_before_hatch_do_not_begin_with_it()
    {
        var tank = Dying();
        for (var day = -25; day <= -8; day++)
        {
            tank.Seen(day, 10, new Observation { DeadEggs = 2 });
        }

        Assert.Null(Metals(tank));
    }

    [Fact]
    public void Dead_eggs_are_not_dead_alevins() =>
        Assert.Null(Metals(TankStory.Alevins().Seen(-1, 9, new Observation { DeadEggs = 8 }).Seen(0, 9, new Observation { DeadEggs = 8 }).Seen(0, 10, GoodTests)));

    [Fact]
    public void Eggs_that_have_not_hatched_do_not_show_it() =>
        Assert.Null(Metals(TankStory.Eggs().Seen(-1, 9, Dead(5)).Seen(0, 9, Dead(5)).Seen(0, 10, GoodTests)));

    [Fact]
    public void A_calm_count_ends_it() => Assert.Null(Metals(Dying().Seen(1, 9, Dead(0)).Seen(2, 9, Dead(0)), 2));

    [Fact]
    public void An_old_good_test_that_comes_late_changes_nothing() =>
        Assert.Equal(Metals(Dying()), Metals(Dying().Seen(-3, 9, new Observation { Ph = 7.4, AmmoniaTotalMgL = 0 })));

    [Fact]
    public void A_die_off_in_bad_water_is_not_called_metals()
    {
        var found = Hatched([0, 0, 0, 10, 15], GoodTests with { AmmoniaTotalMgL = 2, Ph = 8 }).Findings().Select(f => f.Kind).ToList();

        Assert.Contains(FlagKind.DieOff, found);
        Assert.Contains(FlagKind.Ammonia, found);
        Assert.DoesNotContain(FlagKind.Metals, found);
    }
}
