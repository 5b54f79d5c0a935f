using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class HatchRulesTests
{
    private static readonly Observation None = new() { Hatched = Share.None };

    private static DateOnly DayOf(int day) => TankStory.Wednesday.AddDays(day);

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

    /// <summary>The last day on which hatch is still within its interval, reckoned on that day itself.</summary>
    private static int LastDayInTime()
    {
        var day = 0;
        while (ReadUpTo(day).Situation(day).Development.Hatch!.High95 >= DayOf(day))
        {
            day++;
        }

        return day - 1;
    }

    [Fact]
    public void A_hatch_is_late_from_the_day_after_its_interval()
    {
        var last = LastDayInTime();

        Assert.Null(HatchRules.LateHatch(ReadUpTo(last).Situation(last)));
        var found = HatchRules.LateHatch(ReadUpTo(last + 1).Situation(last + 1));
        Assert.Equal((FlagKind.LateHatch, Urgency.ThisWeek), (found!.Kind, found.Urgency));
        Assert.True(Assert.IsType<HatchEvidence>(found.Evidence) is { DaysOver: >= 1, SaidNone: false });
        Assert.InRange(last, 10, 30); // Fertilised twenty days before day 0; half hatch at 10 °C after about 33.
    }

    [Fact]
    public void It_stands_on_the_end_of_the_interval()
    {
        var day = LastDayInTime() + 3;
        var found = HatchRules.LateHatch(ReadUpTo(day).Situation(day))!;
        var end = Assert.IsType<HatchEvidence>(found.Evidence).High95;

        Assert.Equal(TankStory.At(end.DayNumber - TankStory.Wednesday.DayNumber + 1, 0), found.StandsOn);
    }

    [Theory]
    [InlineData(Share.Some)]
    [InlineData(Share.All)]
    public void A_hatch_that_was_seen_is_not_late(Share share)
    {
        var day = LastDayInTime() + 2;

        Assert.Null(HatchRules.LateHatch(ReadUpTo(day).Seen(day - 4, 10, new Observation { Hatched = share }).Situation(day)));
        Assert.NotNull(HatchRules.LateHatch(ReadUpTo(day).Seen(day - 4, 10, None).Situation(day)));
    }

    [Fact]
    public void A_dead_alevin_is_a_hatch_too()
    {
        var day = LastDayInTime() + 2;

        Assert.Null(HatchRules.LateHatch(ReadUpTo(day).Seen(day, 10, new Observation { DeadAlevins = 1 }).Situation(day)));
    }

    [Fact]
    public void Whether_none_was_said_after_the_interval_or_nobody_ever_answered_is_told()
    {
        var day = LastDayInTime() + 2;

        Assert.True(Assert.IsType<HatchEvidence>(HatchRules.LateHatch(ReadUpTo(day).Seen(day, 10, None).Situation(day))!.Evidence).SaidNone);
        Assert.False(Assert.IsType<HatchEvidence>(HatchRules.LateHatch(ReadUpTo(day).Situation(day))!.Evidence).SaidNone);
        Assert.False(Assert.IsType<HatchEvidence>(HatchRules.LateHatch(ReadUpTo(day).Seen(5, 10, None).Situation(day))!.Evidence).SaidNone);
    }

    [Fact]
    public void After_the_day_of_swim_up_only_a_class_that_said_none_is_still_late()
    {
        var tank = ReadUpTo(60);
        var swimUp = tank.Situation(60).Development.SwimUp!.Mid.DayNumber - TankStory.Wednesday.DayNumber;

        Assert.InRange(swimUp, 30, 50);
        Assert.NotNull(HatchRules.LateHatch(ReadUpTo(swimUp - 1).Situation(swimUp)));
        Assert.Null(HatchRules.LateHatch(ReadUpTo(swimUp + 1).Situation(swimUp + 2)));
        Assert.NotNull(HatchRules.LateHatch(ReadUpTo(swimUp + 1).Seen(swimUp + 1, 10, None).Situation(swimUp + 2)));
    }
}
