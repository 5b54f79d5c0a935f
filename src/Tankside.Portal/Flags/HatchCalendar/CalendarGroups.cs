using Tankside.Hatchery.Places;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Flags.HatchCalendar;

/// <summary>How the tanks of the calendar are put together.</summary>
public enum CalendarOrder
{
    Week,
    School,
    Lot,
}

/// <summary>Tanks that stand together on the calendar.</summary>
/// <param name="Note">What else is to be known of them, such as closures of that week; null for nothing.</param>
public sealed record CalendarGroup(string Title, string? Note, IReadOnlyList<CalendarTank> Tanks);

/// <summary>Puts the tanks of a calendar in order.</summary>
public static class CalendarGroups
{
    private const int LeastDays = 42, MostDays = 182;

    public static IReadOnlyList<CalendarGroup> Of(CalendarNow now, IReadOnlyList<CalendarTank> tanks, CalendarOrder order) => order switch
    {
        CalendarOrder.Week => Weeks(now, tanks),
        CalendarOrder.School => Named(now, tanks, t => t.Glance.Place.School.Name, t => ClosuresOf(now, t.Glance.Place.School)),
        CalendarOrder.Lot => Named(now, tanks, t => now.Time.Say.Of("Lot {0}", t.Lot.Code), _ => null),
    };

    /// <summary>From the Monday before today until the last stage to come is sure to have come.</summary>
    public static DateAxis Axis(CalendarNow now, IReadOnlyList<CalendarTank> tanks)
    {
        var from = Monday(now.Time.Today.AddDays(-3));
        var last = tanks.SelectMany(t => new[] { t.Hatch, t.SwimUp }).Where(s => s is { SeenOn: null }).Select(s => s!.Forecast.High95).DefaultIfEmpty(from).Max();
        var days = Math.Clamp(last.AddDays(5).DayNumber - from.DayNumber, LeastDays, MostDays);
        return new DateAxis(from.ToDateTime(TimeOnly.MinValue), from.AddDays(days).ToDateTime(TimeOnly.MinValue));
    }

    public static DateOnly Monday(DateOnly day) => day.AddDays(-(((int)day.DayOfWeek + 6) % 7));

    /// <summary>By the week in which the next stage is likeliest, the tanks with nothing left to date at the end.</summary>
    private static List<CalendarGroup> Weeks(CalendarNow now, IReadOnlyList<CalendarTank> tanks)
    {
        var thisWeek = Monday(now.Time.Today);
        return [.. tanks
            .GroupBy(t => t.Next is { On: var on } ? Max(Monday(on.Forecast.Mid), thisWeek) : (DateOnly?)null)
            .OrderBy(g => g.Key ?? DateOnly.MaxValue)
            .Select(g => new CalendarGroup(
                g.Key is { } week ? week == thisWeek ? now.Time.Say["This week, or due already"] : now.Time.Say.Of("Week of {0}", now.Time.Day(week)) : now.Time.Say["Swimming, or without a date"],
                g.Key is { } of ? ClosuresIn(now, of) : null,
                [.. g.OrderBy(t => t.Next?.On.Forecast.Mid).ThenBy(t => t.Code, StringComparer.Ordinal)]))];
    }

    private static List<CalendarGroup> Named(
        CalendarNow now, IReadOnlyList<CalendarTank> tanks, Func<CalendarTank, string> name, Func<CalendarTank, string?> note) =>
        [.. tanks.GroupBy(name).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => new CalendarGroup(
                g.Key, note(g.First()),
                [.. g.OrderBy(t => t.Next?.On.Forecast.Mid ?? now.Time.Today).ThenBy(t => t.Code, StringComparer.Ordinal)]))];

    private static string? ClosuresIn(CalendarNow now, DateOnly week) =>
        Told(now, now.Closures.Where(c => c.FirstDay <= week.AddDays(6) && c.LastDay >= week));

    private static string? ClosuresOf(CalendarNow now, School school) =>
        Told(now, now.Closures.Where(c => (c.SchoolId is null || c.SchoolId == school.Id) && c.LastDay >= now.Time.Today));

    private static string? Told(CalendarNow now, IEnumerable<Closure> closures)
    {
        var said = closures.Select(c => $"{c.Reason}, {now.Time.Stretch(c.FirstDay, c.LastDay)}").Distinct().ToList();
        return said.Count == 0 ? null : now.Time.Say.Of("Closed: {0}.", string.Join("; ", said));
    }

    private static DateOnly Max(DateOnly a, DateOnly b) => a > b ? a : b;
}
