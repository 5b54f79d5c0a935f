using System.Globalization;
using Tankside.Portal.Places.Sheets;

namespace Tankside.Portal.Tests.Places.Register;

public class CalendarFileTests
{
    private static readonly DateOnly From = new(2026, 9, 1), To = new(2027, 6, 30);

    [Fact]
    public void Whole_days_are_read_the_end_left_out_as_the_format_has_it()
    {
        var read = Read(
            Event("Winter break", "DTSTART;VALUE=DATE:20261221", "DTEND;VALUE=DATE:20270102"),
            Event("Power works", "DTSTART;VALUE=DATE:20270215"),
            Event("Concert", "DTSTART:20270216T180000", "DTEND:20270216T200000"),
            Event("Last summer", "DTSTART;VALUE=DATE:20260701"),
            Event("Called off", "DTSTART;VALUE=DATE:20270301", "STATUS:CANCELLED"),
            Event("Power works", "DTSTART;VALUE=DATE:20270215"),
            Event("Camp", "DTSTART:20270420T080000", "DTEND:20270422T150000"));

        Assert.Equal(["2026-12-21 2027-01-01 Winter break", "2027-02-15 2027-02-15 Power works", "2027-04-20 2027-04-22 Camp"], Words(read));
        Assert.Equal((1, 1, 1, 0), (read.Timed, read.Outside, read.Twice, read.Unread));
    }

    [Fact]
    public void A_repeating_event_is_spread_over_the_season_and_no_further()
    {
        var read = Read(
            Event("Staff day", "DTSTART;VALUE=DATE:20260904", "RRULE:FREQ=MONTHLY;BYDAY=1FR;COUNT=40", "EXDATE;VALUE=DATE:20261002"),
            Event("Founders", "DTSTART;VALUE=DATE:20240314", "RRULE:FREQ=YEARLY"));

        Assert.Equal("2026-09-04 2026-09-04 Staff day", Words(read)[0]);
        Assert.DoesNotContain("2026-10-02 2026-10-02 Staff day", Words(read));
        Assert.Equal(9 + 1, read.Days.Count);
        Assert.Contains("2027-03-14 2027-03-14 Founders", Words(read));
    }

    [Theory]
    [InlineData("RRULE:FREQ=SECONDLY")]
    [InlineData("RRULE:FREQ=DAILY;COUNT=2\r\nRRULE:FREQ=SECONDLY")]
    [InlineData("DTEND;VALUE=DATE:99991231")]
    [InlineData("DURATION:P999999999D")]
    [InlineData("RRULE:FREQ=DAILY;BYHOUR=0,1,2,3;BYMINUTE=1,2,3;BYSECOND=1,2,3")]
    public void A_rule_that_is_not_one_of_days_is_not_followed(string rule)
    {
        var read = Read(Event("Trap", "DTSTART;VALUE=DATE:20260904", rule), Event("Break", "DTSTART;VALUE=DATE:20270215"));

        Assert.Equal((1, 1), (read.Unread, read.Days.Count));
    }

    [Fact]
    public void A_rule_that_never_comes_true_and_one_from_another_age_end()
    {
        var read = Read(
            Event("Never", "DTSTART;VALUE=DATE:20260904", "RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30"),
            Event("Old", "DTSTART;VALUE=DATE:00010101", "RRULE:FREQ=DAILY"),
            Event("Break", "DTSTART;VALUE=DATE:20270215"));

        Assert.Equal("2027-02-15 2027-02-15 Break", Words(read)[^1]);
        Assert.Equal(1, read.Unread);
    }

    [Fact]
    public void More_days_than_a_school_year_has_are_refused() =>
        Assert.Contains("more than 300", Assert.Throws<NoCalendarException>(() =>
            Read(Event("a", "DTSTART;VALUE=DATE:20260901", "RRULE:FREQ=DAILY"), Event("b", "DTSTART;VALUE=DATE:20260901", "RRULE:FREQ=DAILY"))).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("", "no calendar file")]
    [InlineData("Day,Reason\n2027-01-01,Closed\n", "no calendar file")]
    [InlineData("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n", "no event")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART:nonsense\r\nRRULE:FREQ=WHENEVER\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n", "broken")]
    public void A_file_that_is_none_is_told_so(string text, string says) =>
        Assert.Contains(says, Assert.Throws<NoCalendarException>(() => CalendarFile.Read(text, From, To)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("No School: Teacher Workday", true)]
    [InlineData("Presidents' Day Holiday", true)]
    [InlineData("Picture day", false)]
    public void The_words_say_which_is_ticked_beforehand(string reason, bool ticked) => Assert.Equal(ticked, ReceiveCalendar.LooksShut(reason));

    public static string Event(string summary, params string[] lines) =>
        $"BEGIN:VEVENT\r\nUID:{Guid.NewGuid()}\r\nDTSTAMP:20260801T000000Z\r\nSUMMARY:{summary}\r\n{string.Join("\r\n", lines)}\r\nEND:VEVENT\r\n";

    public static string Calendar(params string[] events) => $"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Alder Basin//Schools//EN\r\n{string.Concat(events)}END:VCALENDAR\r\n";

    private static CalendarRead Read(params string[] events) => CalendarFile.Read(Calendar(events), From, To);

    private static List<string> Words(CalendarRead read) =>
        [.. read.Days.Select(d => string.Create(CultureInfo.InvariantCulture, $"{d.First:yyyy-MM-dd} {d.Last:yyyy-MM-dd} {d.Reason}"))];
}
