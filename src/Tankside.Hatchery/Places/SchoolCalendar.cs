using Tankside.Hatchery.People;

namespace Tankside.Hatchery.Places;

/// <summary>When the building is open: two instants, UTC.</summary>
public readonly record struct OpenWindow(DateTime Opens, DateTime Closes);

/// <summary>
/// A school's own days and hours. Silence, the next adult at the tank and "before the bell" are all judged by it.
/// Saturdays and Sundays are closed; closures come on top.
/// </summary>
/// <param name="shut">Closures with no notice, such as snow: nobody is late then, but nobody made the tank ready for it either.</param>
public sealed class SchoolCalendar(
    ProgrammeClock clock,
    TimeOnly opens,
    TimeOnly closes,
    IReadOnlyCollection<(DateOnly First, DateOnly Last)> closures,
    IReadOnlyCollection<(DateOnly First, DateOnly Last)>? shut = null)
{
    /// <summary>Closed days in a row from which a closure counts as a break rather than a weekend.</summary>
    public const int BreakDays = 3;

    /// <summary>How far ahead an open day is looked for: longer than any school's summer.</summary>
    private const int Horizon = 150;

    // Asked for each day of months, for each tank: an array is gone through without making anything.
    private readonly (DateOnly First, DateOnly Last)[] closures = [.. closures];
    private readonly (DateOnly First, DateOnly Last)[] shut = [.. shut ?? []];

    public ProgrammeClock Clock { get; } = clock;

    public TimeOnly Opens { get; } = opens;

    public TimeOnly Closes { get; } = closes;

    public bool IsSchoolDay(DateOnly day) => WasToBeSchoolDay(day) && !IsIn(shut, day);

    /// <summary>A school day by the plan, whether or not the building was then shut with no notice.</summary>
    public bool WasToBeSchoolDay(DateOnly day) =>
        day.DayOfWeek is not (DayOfWeek.Saturday or DayOfWeek.Sunday)
        && !IsIn(closures, day);

    private static bool IsIn((DateOnly First, DateOnly Last)[] spans, DateOnly day)
    {
        foreach (var (first, last) in spans)
        {
            if (first <= day && day <= last)
            {
                return true;
            }
        }

        return false;
    }

    public OpenWindow WindowOf(DateOnly day) => new(Clock.Utc(day, Opens), Clock.Utc(day, Closes));

    /// <summary>The first open window that ends after <paramref name="instant"/>: the one under way, or the next. Null past the horizon.</summary>
    public OpenWindow? WindowAtOrAfter(DateTime instant)
    {
        var day = Clock.Day(instant);
        for (var i = 0; i <= Horizon; i++, day = day.AddDays(1))
        {
            if (IsSchoolDay(day) && WindowOf(day) is var window && window.Closes > instant)
            {
                return window;
            }
        }

        return null;
    }

    /// <summary>School days from the day after <paramref name="after"/> up to and with <paramref name="through"/>.</summary>
    public IEnumerable<DateOnly> SchoolDays(DateOnly after, DateOnly through)
    {
        for (var day = after.AddDays(1); day <= through; day = day.AddDays(1))
        {
            if (IsSchoolDay(day))
            {
                yield return day;
            }
        }
    }

    /// <summary>How many closed days in a row end the day before <paramref name="day"/>.</summary>
    public int ClosedDaysBefore(DateOnly day)
    {
        var count = 0;
        while (count < Horizon && !IsSchoolDay(day.AddDays(-1 - count)))
        {
            count++;
        }

        return count;
    }

    /// <summary>Runs of closed days inside a span, for the shading of charts.</summary>
    public IReadOnlyList<(DateOnly First, DateOnly Last)> ClosedRuns(DateOnly first, DateOnly last)
    {
        var runs = new List<(DateOnly First, DateOnly Last)>();
        for (var day = first; day <= last; day = day.AddDays(1))
        {
            if (IsSchoolDay(day))
            {
                continue;
            }

            if (runs.Count > 0 && runs[^1].Last.AddDays(1) == day)
            {
                runs[^1] = (runs[^1].First, day);
            }
            else
            {
                runs.Add((day, day));
            }
        }

        return runs;
    }
}
