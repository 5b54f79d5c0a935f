using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Tests.Readings;

/// <summary>The chance of a stage on some days. The normal distribution's values are those of any printed table of it.</summary>
public class BreakChancesTests
{
    /// <summary>A Wednesday.</summary>
    private static readonly DateOnly Mid = new(2027, 2, 10);

    /// <summary>A school week; with the weekends round it Saturday 13 to Sunday 21 February.</summary>
    private static readonly (DateOnly First, DateOnly Last) Winter = (new(2027, 2, 15), new(2027, 2, 19));

    private static StageForecast Swim(double sd, DateOnly? mid = null)
    {
        Assert.True(StageModels.TryFind(Species.RainbowTrout, Stage.SwimUp, out var model, out _));
        var at = mid ?? Mid;
        return new StageForecast(0.9, at, at.AddDays(-3), at.AddDays(3), at.AddDays(-4), at.AddDays(4), sd, true, model, []);
    }

    private static SchoolCalendar Calendar(params (DateOnly, DateOnly)[] closures) =>
        new(ProgrammeClock.Of("America/Los_Angeles"), new TimeOnly(8, 0), new TimeOnly(15, 0), closures);

    [Fact]
    public void Days_each_count_from_midnight_to_midnight()
    {
        // Five days, so 2.5 to either side of the middle of the middle day: at a spread of 2 days 1.25 sd, which holds 78.87%.
        Assert.Equal(0.7887, Swim(2).ChanceWithin(Mid.AddDays(-2), Mid.AddDays(2), null), 0.0001);

        // Any day at all is certain, no day is none.
        Assert.Equal(1, Swim(2).ChanceWithin(Mid.AddDays(-40), Mid.AddDays(40), null), 0.0001);
        Assert.Equal(0, Swim(2).ChanceWithin(Mid.AddDays(30), Mid.AddDays(40), null), 0.0001);
    }

    [Fact]
    public void What_had_not_come_on_a_day_comes_after_it()
    {
        // Not by the end of the day before the middle: half a day before it, 0.25 sd at a spread of 2: 59.87% is left.
        var left = Swim(2).ChanceWithin(Mid, Mid.AddDays(2), Mid.AddDays(-1));

        // From -0.25 to +1.25 sd lies 49.31% of everything.
        Assert.Equal(0.4931 / 0.5987, left, 0.0002);
        Assert.Equal(0, Swim(2).ChanceWithin(Mid.AddDays(-9), Mid.AddDays(-1), Mid.AddDays(-1)), 0.0001);
        Assert.Equal(1, Swim(2).ChanceWithin(Mid.AddDays(30), Mid.AddDays(40), Mid.AddDays(30)), 0.0001);
    }

    [Fact]
    public void Any_week_that_is_wide_enough_puts_two_days_in_seven_on_the_weekend()
    {
        Assert.Equal(2 / 7.0, Swim(20).OnClosedDay(null, Calendar()), 0.002);
        Assert.Equal(0, Swim(0.2).OnClosedDay(null, Calendar()), 0.01);
        Assert.True(Swim(0.2, new DateOnly(2027, 2, 13)).OnClosedDay(null, Calendar()) > 0.8); // a day is the finest that is told: half a day's sd
        Assert.True(Swim(3).OnClosedDay(null, Calendar(Winter)) > Swim(3).OnClosedDay(null, Calendar()));
    }

    [Fact]
    public void A_break_reaches_back_by_the_school_days_that_are_needed_before_it()
    {
        var today = new DateOnly(2027, 2, 3);
        var found = Assert.Single(BreakChances.Of(Swim(2), null, null, Calendar(Winter), today, breakDays: 3, schoolDaysBefore: 10));

        Assert.Equal((new DateOnly(2027, 2, 13), new DateOnly(2027, 2, 21)), (found.First, found.Last));
        Assert.Equal(new DateOnly(2027, 2, 1), found.From); // ten school days: two weeks
        Assert.Equal(1, found.Chance, 0.001);

        var bare = Assert.Single(BreakChances.Of(Swim(2), null, null, Calendar(Winter), today, breakDays: 3, schoolDaysBefore: 0));
        Assert.Equal((bare.First, 0.1056), (bare.From, Math.Round(bare.Chance, 4))); // from 2.5 days after the middle on: 1.25 sd
    }

    [Fact]
    public void Once_it_was_seen_it_is_certain_and_a_break_that_is_over_is_none()
    {
        var closed = Calendar(Winter);
        Assert.Equal(1, Assert.Single(BreakChances.Of(Swim(2), new DateOnly(2027, 2, 12), null, closed, new DateOnly(2027, 2, 14), 3, 10)).Chance);
        Assert.Equal(0, Assert.Single(BreakChances.Of(Swim(2), new DateOnly(2027, 1, 20), null, closed, new DateOnly(2027, 2, 14), 3, 10)).Chance);
        Assert.Empty(BreakChances.Of(Swim(2), null, null, closed, new DateOnly(2027, 2, 22), 3, 10));
    }
}
