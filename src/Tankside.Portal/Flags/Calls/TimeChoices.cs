using System.Globalization;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.Calls;

/// <summary>A moment one can choose with one tap.</summary>
public sealed record TimeChoice(string Words, DateTime At);

/// <summary>The moments a coordinator means: in an hour, before the bell, the next school morning.</summary>
public static class TimeChoices
{
    private static readonly TimeSpan BeforeBell = TimeSpan.FromMinutes(30), AfterOpening = TimeSpan.FromMinutes(30), Least = TimeSpan.FromMinutes(15);

    /// <summary>Ascending; only what lies ahead.</summary>
    public static IReadOnlyList<TimeChoice> For(SchoolCalendar calendar, DateTime now)
    {
        var choices = new List<TimeChoice> { new("in half an hour", now.AddMinutes(30)), new("in two hours", now.AddHours(2)) };
        if (calendar.WindowAtOrAfter(now) is { } window)
        {
            Add(choices, "before the bell", window.Closes - BeforeBell, calendar, now);
            var next = window.Opens > now ? window : calendar.WindowAtOrAfter(window.Closes.AddMinutes(1));
            if (next is { } morning)
            {
                Add(choices, "next school morning", morning.Opens + AfterOpening, calendar, now);
            }
        }

        return [.. choices.OrderBy(c => c.At)];
    }

    private static void Add(List<TimeChoice> choices, string words, DateTime at, SchoolCalendar calendar, DateTime now)
    {
        if (at > now + Least)
        {
            var local = calendar.Clock.Local(at);
            var day = calendar.Clock.Day(at) == calendar.Clock.Day(now) ? "HH:mm" : "ddd HH:mm";
            choices.Add(new TimeChoice($"{words}, {local.ToString(day, CultureInfo.InvariantCulture)}", at));
        }
    }

    /// <summary>The value of a datetime-local field, in the programme's local time; null when it is empty or not a time.</summary>
    public static DateTime? Parse(string? typed, SchoolCalendar calendar) =>
        DateTime.TryParseExact(typed, ["yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd'T'HH:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var local)
            ? calendar.Clock.Utc(DateOnly.FromDateTime(local), TimeOnly.FromDateTime(local))
            : null;

    public static string Text(DateTime? utc, SchoolCalendar calendar) =>
        utc is { } at ? calendar.Clock.Local(at).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture) : "";
}
