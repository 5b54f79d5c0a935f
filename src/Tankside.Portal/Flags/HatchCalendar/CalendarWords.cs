using System.Globalization;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.HatchCalendar;

/// <summary>The calendar's sentences.</summary>
public static class CalendarWords
{
    /// <summary>The page's answer: what is to be steered, before what is merely to come.</summary>
    public static string Answer(IReadOnlyList<CalendarTank> tanks)
    {
        var hatch = tanks.Count(t => t.Hatch is { SeenOn: null, Break: not null });
        var swim = tanks.Count(t => t.SwimUp is { SeenOn: null, Break: not null });
        return (tanks.Count, hatch, swim) switch
        {
            (0, _, _) => "No tank has fish to date.",
            (1, 0, 0) => "The tank keeps clear of every break.",
            (_, 0, 0) => $"All {tanks.Count} tanks keep clear of every break.",
            (_, 0, var s) => $"{Tanks(s)} may swim up in a break, or too near one.",
            (_, var h, 0) => $"{Tanks(h)} may hatch in a break.",
            var (_, h, s) => $"{Tanks(h)} may hatch in a break; {s} may swim up in one, or too near.",
        };
    }

    /// <summary>"Tue 9 to Sun 14 Feb", "seen Wed 3 Feb", or "due by Sun 14 Feb, not reported".</summary>
    public static string Dates(StageOnCalendar stage, DateOnly today) => stage switch
    {
        { SeenOn: { } seen } => $"seen {TimeWords.Brief(seen, seen)}",
        { Forecast: { } f } when f.High80 < today => $"due by {TimeWords.Brief(f.High80, f.High80)}, not reported",
        { Forecast: var f } => TimeWords.Brief(f.Low80, f.High80),
    };

    /// <summary>What the school's breaks make of it; null when they make nothing of it.</summary>
    public static string? Trouble(StageOnCalendar on, TimeWords time) => on switch
    {
        { SeenOn: not null } or { Break: null } => null,
        { Break: var closed } => $"{Percent(closed.Chance)} chance {(closed.From < closed.First ? "in or just before" : "in")} the break {time.Stretch(closed.First, closed.Last)}",
    };

    /// <summary>"60% chance on a closed day"; null when it was seen or is over, or when it is little more than weekends make of any date.</summary>
    public static string? Closed(StageOnCalendar on, DateOnly today) =>
        on is { SeenOn: null, ClosedChance: > 0.4 } && on.Forecast.High80 >= today ? $"{Percent(on.ClosedChance)} chance on a closed day" : null;

    /// <summary>In steps of 5: a forecast is no finer.</summary>
    public static string Percent(double chance) => chance switch
    {
        > 0.95 => "over 95%",
        < 0.05 => "under 5%",
        _ => (Math.Round(chance * 20) * 5).ToString("0", CultureInfo.InvariantCulture) + "%",
    };

    private static string Tanks(int count) => CountWords.Count(count, "tank", "tanks");
}
