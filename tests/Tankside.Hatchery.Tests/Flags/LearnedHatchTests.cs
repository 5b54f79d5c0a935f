using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>A lot's dates and one tank's trouble are told apart once the first tanks of the lot have hatched.</summary>
public class LearnedHatchTests
{
    /// <summary>Read every day at 10 °C, from the delivery up to and with a day.</summary>
    private static TankStory ReadUpTo(int day)
    {
        var tank = TankStory.Eggs();
        for (var d = -5; d <= day; d++)
        {
            tank.Water(d, 9, 10);
        }

        return tank;
    }

    private static int MidDay => DayOf(ReadUpTo(0).Situation().Development.Hatch!.Mid);

    /// <summary>The first day on which a tank in which nobody saw a hatch is told as late.</summary>
    private static int FirstLateDay(LotLearned learned)
    {
        var day = MidDay;
        while (HatchRules.LateHatch(ReadUpTo(day).Learned(learned).Situation(day)) is null)
        {
            day++;
        }

        return day;
    }

    private static int DayOf(DateOnly day) => day.DayNumber - TankStory.Wednesday.DayNumber;

    /// <summary>Siblings in the same water in which half had hatched on these days, seen day by day.</summary>
    private static LotLearned Hatched(params int[] days) => new([.. days.SelectMany(day =>
    {
        var record = ReadUpTo(day)
            .Seen(day - 2, 10, new Observation { Hatched = Share.None })
            .Seen(day - 1, 10, new Observation { Hatched = Share.Some })
            .Seen(day, 10, new Observation { Hatched = Share.Half }).Record;
        return HatchesSeen.Of(Guid.NewGuid(), record.Lot!, record.Days, record.Tank.SetPointC);
    })]);

    [Fact]
    public void A_lot_that_is_late_as_a_whole_is_late_no_more_once_its_first_tanks_have_hatched()
    {
        var late = FirstLateDay(LotLearned.Nothing);

        Assert.Null(HatchRules.LateHatch(ReadUpTo(late).Learned(Hatched(late - 1, late, late)).Situation(late)));
    }

    [Fact]
    public void A_tank_alone_in_trouble_is_told_days_sooner_when_its_siblings_hatched_in_time() =>
        Assert.InRange(FirstLateDay(LotLearned.Nothing) - FirstLateDay(Hatched(MidDay, MidDay, MidDay)), 2, 6);

    [Fact]
    public void The_last_tank_of_a_late_lot_is_told_when_its_siblings_are_long_out()
    {
        var late = FirstLateDay(LotLearned.Nothing);

        Assert.InRange(FirstLateDay(Hatched(late - 1, late, late)), late + 2, late + 8);
    }

    [Fact]
    public void The_first_tanks_of_an_early_lot_are_told_and_the_others_are_not()
    {
        var start = DayOf(ReadUpTo(0).Situation().Development.Hatch!.Low95);
        Finding? HatchOn(int day, LotLearned learned) => EarlyHatchRules.HatchBeforeItsTime(
            ReadUpTo(day - 1).Seen(day, 9, new Observation { Hatched = Share.Half, WaterC = 10 }).Learned(learned).Situation(day));

        Assert.NotNull(HatchOn(start - 1, LotLearned.Nothing));
        Assert.Null(HatchOn(start - 1, Hatched(start - 2, start - 2, start - 2)));
    }

    [Fact]
    public void A_sibling_seen_on_the_same_day_or_later_does_not_excuse_an_early_hatch()
    {
        var start = DayOf(ReadUpTo(0).Situation().Development.Hatch!.Low95);
        var tank = ReadUpTo(start - 3).Seen(start - 2, 9, new Observation { Hatched = Share.Half, WaterC = 10 }).Learned(Hatched(start));

        Assert.NotNull(EarlyHatchRules.HatchBeforeItsTime(tank.Situation(start - 2)));
        Assert.NotNull(EarlyHatchRules.HatchBeforeItsTime(tank.Situation(start + 1)));
    }
}
