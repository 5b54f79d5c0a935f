using System.Globalization;
using Tankside.Hatchery.People;

namespace Tankside.Portal.Flags;

/// <summary>Instants and days as a page says them, in the programme's local time, seen from one moment.</summary>
public sealed class TimeWords(ProgrammeClock clock, DateTime now)
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    public DateOnly Today { get; } = clock.Day(now);

    /// <summary>"today 08:15", "yesterday 14:40", "Tue 13:40" within the week, "3 Feb 13:40" beyond.</summary>
    public string When(DateTime utc)
    {
        var local = clock.Local(utc);
        var days = Today.DayNumber - DateOnly.FromDateTime(local).DayNumber;
        return days switch
        {
            0 => local.ToString("'today' HH:mm", Plain),
            1 => local.ToString("'yesterday' HH:mm", Plain),
            > 1 and < 6 => local.ToString("ddd HH:mm", Plain),
            _ => local.ToString("d MMM HH:mm", Plain),
        };
    }

    /// <summary>"just now", "25 minutes ago", "3 hours ago", "2 days ago"; whole units, rounded down.</summary>
    public string Ago(DateTime utc)
    {
        var past = now - utc;
        return past.TotalMinutes < 2 ? "just now"
            : past.TotalMinutes < 100 ? $"{(int)past.TotalMinutes} minutes ago"
            : past.TotalHours < 48 ? $"{(int)past.TotalHours} hours ago"
            : $"{(int)past.TotalDays} days ago";
    }

    /// <summary>"Tue 8 December".</summary>
    public string Day(DateOnly day) => day.ToString(Math.Abs(day.DayNumber - Today.DayNumber) > 300 ? "ddd d MMMM yyyy" : "ddd d MMMM", Plain);

    /// <summary>
    /// An interval of days ahead: "between Tue 8 and Sat 12 December", "between today and Sat 12 December", "any day now" when its far
    /// end is today or behind.
    /// </summary>
    public string Ahead(DateOnly low, DateOnly high) => high <= Today ? "any day now"
        : low <= Today ? $"between today and {Day(high)}"
        : low == high ? $"about {Day(high)}"
        : $"between {From(low, high)} and {Day(high)}";

    /// <summary>"Mon 21 December to Fri 1 January"; a single day by itself.</summary>
    public string Stretch(DateOnly first, DateOnly last) => first == last ? Day(first) : $"{From(first, last)} to {Day(last)}";

    /// <summary>"Thu 26 Nov to Mon 14 Dec", where many stand under each other.</summary>
    public static string Brief(DateOnly first, DateOnly last) =>
        first == last ? first.ToString("ddd d MMM", Plain) : $"{first.ToString(first.Month == last.Month ? "ddd d" : "ddd d MMM", Plain)} to {last.ToString("ddd d MMM", Plain)}";

    /// <summary>The month is said once when both ends share it.</summary>
    private string From(DateOnly first, DateOnly last) =>
        first.Month == last.Month && first.Year == last.Year ? first.ToString("ddd d", Plain) : Day(first);
}
