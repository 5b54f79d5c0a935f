using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Tests.Places;

public class SchoolCalendarTests
{
    private static readonly DateOnly Monday = new(2027, 1, 18);

    private static readonly (DateOnly, DateOnly) WinterBreak = (new(2026, 12, 21), new(2027, 1, 1));

    private static SchoolCalendar Calendar(params (DateOnly, DateOnly)[] closures) =>
        new(ProgrammeClock.Of("America/Los_Angeles"), new TimeOnly(8, 0), new TimeOnly(15, 15), closures);

    /// <summary>January 2027, Pacific time: eight hours behind.</summary>
    private static DateTime Jan(int day, int hour, int minute = 0) =>
        new DateTime(2027, 1, day, hour, minute, 0, DateTimeKind.Utc).AddHours(8);

    [Fact]
    public void Saturdays_and_sundays_are_no_school_days() =>
        Assert.Equal(
            [true, true, true, true, true, false, false],
            Enumerable.Range(0, 7).Select(i => Calendar().IsSchoolDay(Monday.AddDays(i))));

    [Fact]
    public void A_closure_is_shut_from_its_first_to_its_last_day()
    {
        var calendar = Calendar((Monday.AddDays(1), Monday.AddDays(2)));

        Assert.Equal([true, false, false, true], Enumerable.Range(0, 4).Select(i => calendar.IsSchoolDay(Monday.AddDays(i))));
    }

    [Fact]
    public void The_window_of_a_day_is_its_hours_as_instants_in_winter_and_in_summer()
    {
        var calendar = Calendar();

        Assert.Equal(new OpenWindow(Jan(18, 8), Jan(18, 15, 15)), calendar.WindowOf(Monday));
        Assert.Equal(
            new OpenWindow(new(2027, 3, 15, 15, 0, 0, DateTimeKind.Utc), new(2027, 3, 15, 22, 15, 0, DateTimeKind.Utc)),
            calendar.WindowOf(new DateOnly(2027, 3, 15)));
    }

    [Fact]
    public void The_window_under_way_lasts_until_the_bell_and_then_it_is_the_next()
    {
        var calendar = Calendar();
        var (monday, tuesday) = (calendar.WindowOf(Monday), calendar.WindowOf(Monday.AddDays(1)));

        Assert.Equal(monday, calendar.WindowAtOrAfter(Jan(18, 6, 30)));
        Assert.Equal(monday, calendar.WindowAtOrAfter(Jan(18, 15, 14)));
        Assert.Equal(tuesday, calendar.WindowAtOrAfter(Jan(18, 15, 15)));
    }

    [Fact]
    public void After_friday_comes_monday_and_before_a_holiday_the_day_after_it()
    {
        Assert.Equal(Calendar().WindowOf(Monday), Calendar().WindowAtOrAfter(Jan(15, 18)));

        var holiday = Calendar((Monday, Monday));
        Assert.Equal(holiday.WindowOf(Monday.AddDays(1)), holiday.WindowAtOrAfter(Jan(15, 18)));
    }

    [Fact]
    public void With_no_school_day_in_sight_there_is_no_window() =>
        Assert.Null(Calendar((Monday, Monday.AddDays(400))).WindowAtOrAfter(Jan(18, 9)));

    [Fact]
    public void School_days_are_counted_from_the_day_after_up_to_and_with_the_last()
    {
        var calendar = Calendar((Monday.AddDays(1), Monday.AddDays(1)));

        Assert.Equal([Monday, Monday.AddDays(2)], calendar.SchoolDays(Monday.AddDays(-3), Monday.AddDays(2)));
        Assert.Empty(calendar.SchoolDays(Monday, Monday));
    }

    [Fact]
    public void A_weekend_is_two_closed_days_a_long_one_is_a_break_and_the_winter_break_is_whole()
    {
        Assert.Equal(2, Calendar().ClosedDaysBefore(Monday));
        Assert.Equal(0, Calendar().ClosedDaysBefore(Monday.AddDays(1)));
        Assert.Equal(SchoolCalendar.BreakDays, Calendar((Monday, Monday)).ClosedDaysBefore(Monday.AddDays(1)));
        Assert.Equal(16, Calendar(WinterBreak).ClosedDaysBefore(new DateOnly(2027, 1, 4)));
    }

    [Fact]
    public void Closed_days_next_to_each_other_are_one_run()
    {
        var calendar = Calendar((Monday, Monday), (Monday.AddDays(2), Monday.AddDays(2)));

        Assert.Equal(
            [(Monday.AddDays(-2), Monday), (Monday.AddDays(2), Monday.AddDays(2)), (Monday.AddDays(5), Monday.AddDays(6))],
            calendar.ClosedRuns(Monday.AddDays(-3), Monday.AddDays(6)));
    }
}
