namespace Tankside.Hatchery.Places;

/// <summary>
/// A stretch on which nobody is due at a school: from the bell of the last school day before a closed day to the next opening. A weekend, a
/// holiday and a snow day are the same to a tank; an ordinary night is none.
/// </summary>
/// <param name="Bell">When the building closes, UTC.</param>
/// <param name="Opens">When it next opens; null when no school day is in sight.</param>
/// <param name="ClosedDays">The closed days between, ascending; the next seven when no school day is in sight.</param>
public sealed record ClosedStretch(DateTime Bell, DateTime? Opens, IReadOnlyList<DateOnly> ClosedDays)
{
    /// <summary>With no school day in sight nobody is taken to come for this long.</summary>
    private const int NobodyForDays = 7;

    /// <summary>When somebody next comes by the calendar.</summary>
    public DateTime Until => Opens ?? Bell.AddDays(NobodyForDays);

    public double Hours => (Until - Bell).TotalHours;

    /// <summary>Long enough to be a break rather than a weekend.</summary>
    public bool IsBreak => ClosedDays.Count >= SchoolCalendar.BreakDays;

    public bool HasBegun(DateTime now) => now >= Bell;

    /// <summary>The stretch under way at <paramref name="now"/>, else the next one.</summary>
    public static ClosedStretch At(SchoolCalendar calendar, DateTime now)
    {
        if (calendar.WindowAtOrAfter(now) is not { } window)
        {
            return WithoutEnd(calendar, now);
        }

        var day = calendar.Clock.Day(window.Opens);
        var before = calendar.ClosedDaysBefore(day);
        if (now < window.Opens && before > 0)
        {
            var last = day.AddDays(-1 - before);
            return new ClosedStretch(calendar.WindowOf(last).Closes, window.Opens, Days(last.AddDays(1), before));
        }

        while (calendar.IsSchoolDay(day.AddDays(1)))
        {
            day = day.AddDays(1);
        }

        var bell = calendar.WindowOf(day).Closes;
        if (calendar.WindowAtOrAfter(bell) is not { } next)
        {
            return WithoutEnd(calendar, bell);
        }

        return new ClosedStretch(bell, next.Opens, Days(day.AddDays(1), calendar.Clock.Day(next.Opens).DayNumber - day.DayNumber - 1));
    }

    private static ClosedStretch WithoutEnd(SchoolCalendar calendar, DateTime bell) =>
        new(bell, null, Days(calendar.Clock.Day(bell).AddDays(1), NobodyForDays));

    private static List<DateOnly> Days(DateOnly first, int count) => [.. Enumerable.Range(0, count).Select(first.AddDays)];
}
