using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Evaluation;

namespace Tankside.Portal.Places.Sheets;

/// <summary>Whole days that a calendar names.</summary>
public sealed record CalendarDays(DateOnly First, DateOnly Last, string Reason);

/// <summary>What a calendar file holds of a season.</summary>
/// <param name="Timed">Events with a time of day, which shut no school.</param>
/// <param name="Outside">Events on no day of the season.</param>
/// <param name="Twice">Those that stood there already.</param>
/// <param name="Unread">Repeating events whose rule is none of whole days, or goes too far back; or longer than any closure.</param>
public sealed record CalendarRead(IReadOnlyList<CalendarDays> Days, int Timed, int Outside, int Twice, int Unread);

/// <summary>A calendar file that is not taken, and why, in words for whoever sent it.</summary>
public sealed class NoCalendarException(string message) : Exception(message);

/// <summary>
/// Reads the events of whole days out of a school district's calendar file (RFC 5545). What it costs is bounded whatever the file says: its
/// size, its events, how far back a repeating one may begin and how many days come of it.
/// </summary>
public static class CalendarFile
{
    public const int MostBytes = 1024 * 1024, MostDays = 300;

    private const int MostEvents = 3_000, MostRepeating = 100, MostYearsBack = 5, MostRounds = 3_000;

    private static readonly EvaluationOptions Bounded = new() { MaxUnmatchedIncrementsLimit = MostRounds };

    public static CalendarRead Read(string text, DateOnly from, DateOnly to)
    {
        var events = EventsOf(text);
        var (timed, outside, twice, unread, repeating) = (0, 0, 0, 0, 0);
        var seen = new HashSet<CalendarDays>();
        foreach (var one in events)
        {
            if (LengthOf(one) is not { } length)
            {
                timed++;
                continue;
            }

            if (length > EditClosures.MostDays || DaysOf(one, from.AddDays(1 - length), to, ref repeating) is not { } firstDays)
            {
                unread++;
                continue;
            }

            var any = false;
            foreach (var first in firstDays)
            {
                any = true;
                var days = new CalendarDays(first, first.AddDays(length - 1), ReasonOf(one));
                twice += seen.Add(days) ? 0 : 1;
                if (seen.Count > MostDays)
                {
                    throw new NoCalendarException($"There are more than {MostDays} events of whole days between {FieldReads.Of(from)} and {FieldReads.Of(to)} in this calendar. Take the one with the holidays alone.");
                }
            }

            outside += any ? 0 : 1;
        }

        return new CalendarRead([.. seen.OrderBy(d => d.First).ThenBy(d => d.Last).ThenBy(d => d.Reason, StringComparer.Ordinal)], timed, outside, twice, unread);
    }

    private static List<CalendarEvent> EventsOf(string text)
    {
        if (!text.TrimStart('\uFEFF', ' ', '\r', '\n', '\t').StartsWith("BEGIN:VCALENDAR", StringComparison.OrdinalIgnoreCase))
        {
            throw new NoCalendarException("This is no calendar file. Expected: a file that ends in .ics, as calendar programs save or subscribe to.");
        }

        try
        {
            var all = CalendarCollection.Load(text).SelectMany(c => c.Events).Where(e => e.DtStart is not null && e.Status != "CANCELLED").ToList();
            return all.Count switch
            {
                0 => throw new NoCalendarException("There is no event in this calendar."),
                > MostEvents => throw new NoCalendarException($"There are more than {MostEvents:#,0} events in this calendar. Save a shorter stretch of it."),
                _ => all,
            };
        }
        catch (Exception e) when (e is not NoCalendarException)
        {
            // Whatever the library meets in a broken file, it is the file's fault.
            throw new NoCalendarException("This calendar file is broken and cannot be read. Save it anew from the program that made it.");
        }
    }

    /// <summary>How many whole days; null for an event with a time of day that is over within one.</summary>
    private static int? LengthOf(CalendarEvent one)
    {
        var (start, end) = (one.DtStart!, one.DtEnd);
        if (!start.HasTime)
        {
            return Math.Max(1, end is not null ? end.Date.DayNumber - start.Date.DayNumber : one.Duration?.Days ?? (one.Duration?.Weeks * 7) ?? 1);
        }

        return end is not null && end.Date.DayNumber - start.Date.DayNumber is > 0 and var days && (days > 1 || end.Time >= start.Time)
            ? days + (end.Time > TimeOnly.MinValue ? 1 : 0)
            : null;
    }

    private static bool Repeats(CalendarEvent one) => one.RecurrenceRule is not null || one.RecurrenceDates.GetAllDates().Any();

    /// <summary>
    /// One rule of whole days that does not begin in another age: others cost more than they tell. Neither is one followed from which a second rule
    /// takes days away (RFC 5545 has given that up): when it takes them all, there is no end to looking.
    /// </summary>
    private static bool IsPlain(CalendarEvent one, DateOnly from) =>
        one.DtStart!.Date >= from.AddYears(-MostYearsBack) && RulesOf(one) <= 1 && !TakesDaysAway(one) && one.RecurrenceRule is null or
        {
            Frequency: FrequencyType.Daily or FrequencyType.Weekly or FrequencyType.Monthly or FrequencyType.Yearly,
            ByHour.Count: 0,
            ByMinute.Count: 0,
            BySecond.Count: 0,
        };

#pragma warning disable CS0618 // A file may still hold several rules, and the library follows them all; only this list tells.
    private static int RulesOf(CalendarEvent one) => one.RecurrenceRules.Count;

    private static bool TakesDaysAway(CalendarEvent one) => one.ExceptionRules.Count > 0;
#pragma warning restore CS0618

    /// <summary>The first days of the event between two days; null for one that is not followed.</summary>
    private static IReadOnlyList<DateOnly>? DaysOf(CalendarEvent one, DateOnly from, DateOnly to, ref int repeating)
    {
        try
        {
            if (!Repeats(one))
            {
                return one.DtStart!.Date >= from && one.DtStart.Date <= to ? [one.DtStart.Date] : [];
            }

            if (++repeating > MostRepeating || !IsPlain(one, from))
            {
                return null;
            }

            return [.. one.GetOccurrences(new CalDateTime(from), Bounded).Take(MostRounds).Select(o => o.Period.StartTime.Date).TakeWhile(d => d <= to).Where(d => d >= from).Take(MostDays + 1)];
        }
        catch (EvaluationException)
        {
            return []; // A rule that never comes true, such as a 30 February.
        }
        catch (Exception e) when (e is ArgumentException or FormatException or InvalidOperationException or OverflowException or NotSupportedException)
        {
            return null; // Days or rules that the library does not make sense of.
        }
    }

    private static string ReasonOf(CalendarEvent one)
    {
        var words = string.Join(' ', (one.Summary ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return words.Length == 0 ? "Closed" : words.Length <= 80 ? words : words[..(char.IsHighSurrogate(words[78]) ? 78 : 79)] + "…";
    }
}
