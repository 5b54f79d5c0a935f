using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags;

/// <summary>Instants and days as a page says them, in the programme's local time, seen from one moment.</summary>
public sealed class TimeWords(ProgrammeClock clock, DateTime now, Say? say = null)
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    /// <summary>The language it is said in.</summary>
    public Say Say { get; } = say ?? Say.InEnglish;

    /// <summary>The same moment, said to another reader.</summary>
    public TimeWords To(Say reader) => new(clock, now, reader);

    private CultureInfo Reader => Say.IsSpanish ? Say.Culture : Plain;

    public DateOnly Today { get; } = clock.Day(now);

    /// <summary>"today 08:15", "yesterday 14:40", "Tue 13:40" within the week, "3 Feb 13:40" beyond.</summary>
    public string When(DateTime utc)
    {
        var local = clock.Local(utc);
        var days = Today.DayNumber - DateOnly.FromDateTime(local).DayNumber;
        return days switch
        {
            0 => Say.Of("today {0}", local.ToString("HH:mm", Plain)),
            1 => Say.Of("yesterday {0}", local.ToString("HH:mm", Plain)),
            > 1 and < 6 => local.ToString("ddd HH:mm", Reader),
            _ => local.ToString("d MMM HH:mm", Reader),
        };
    }

    /// <summary>"just now", "25 minutes ago", "3 hours ago", "2 days ago"; whole units, rounded down.</summary>
    public string Ago(DateTime utc)
    {
        var past = now - utc;
        return past.TotalMinutes < 2 ? Say["just now"]
            : past.TotalMinutes < 100 ? Say.Of("{0} minutes ago", (int)past.TotalMinutes)
            : past.TotalHours < 48 ? Say.Of("{0} hours ago", (int)past.TotalHours)
            : Say.Of("{0} days ago", (int)past.TotalDays);
    }

    /// <summary>"Tue 8 December".</summary>
    public string Day(DateOnly day) => (Math.Abs(day.DayNumber - Today.DayNumber) > 300, Say.IsSpanish) switch
    {
        (false, false) => day.ToString("ddd d MMMM", Plain),
        (true, false) => day.ToString("ddd d MMMM yyyy", Plain),
        (false, true) => day.ToString("ddd d 'de' MMMM", Reader),
        (true, true) => day.ToString("ddd d 'de' MMMM 'de' yyyy", Reader),
    };

    /// <summary>
    /// An interval of days ahead: "between Tue 8 and Sat 12 December", "between today and Sat 12 December", "any day now" when its far
    /// end is today or behind.
    /// </summary>
    public string Ahead(DateOnly low, DateOnly high) => high <= Today ? Say["any day now"]
        : low <= Today ? Say.Of("between today and {0}", Day(high))
        : low == high ? Say.Of("about {0}|day", Day(high))
        : Say.Of("between {0} and {1}|days", From(low, high), Day(high));

    /// <summary>"Mon 21 December to Fri 1 January"; a single day by itself.</summary>
    public string Stretch(DateOnly first, DateOnly last) => first == last ? Day(first) : Say.Of("{0} to {1}|days", From(first, last), Day(last));

    /// <summary>"Thu 26 Nov to Mon 14 Dec", where many stand under each other.</summary>
    public static string Brief(DateOnly first, DateOnly last, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        var culture = say.IsSpanish ? say.Culture : Plain;
        return first == last ? first.ToString("ddd d MMM", culture)
            : say.Of("{0} to {1}|days", first.ToString(first.Month == last.Month ? "ddd d" : "ddd d MMM", culture), last.ToString("ddd d MMM", culture));
    }

    /// <summary>The month is said once when both ends share it.</summary>
    private string From(DateOnly first, DateOnly last) =>
        first.Month == last.Month && first.Year == last.Year ? first.ToString("ddd d", Reader) : Day(first);
}
