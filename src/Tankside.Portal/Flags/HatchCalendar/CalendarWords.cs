using System.Globalization;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.HatchCalendar;

/// <summary>The calendar's sentences.</summary>
public static class CalendarWords
{
    /// <summary>The page's answer: what is to be steered, before what is merely to come.</summary>
    public static string Answer(IReadOnlyList<CalendarTank> tanks, Say say)
    {
        var hatch = tanks.Count(t => t.Hatch is { SeenOn: null, Break: not null });
        var swim = tanks.Count(t => t.SwimUp is { SeenOn: null, Break: not null });
        return (tanks.Count, hatch, swim) switch
        {
            (0, _, _) => say["No tank has fish to date."],
            (1, 0, 0) => say["The tank keeps clear of every break."],
            (_, 0, 0) => say.Of("All {0} tanks keep clear of every break.", tanks.Count),
            (_, 0, var s) => say.Count(s, "{0} tank may swim up in a break, or too near one.", "{0} tanks may swim up in a break, or too near one."),
            (_, var h, 0) => say.Count(h, "{0} tank may hatch in a break.", "{0} tanks may hatch in a break."),
            var (_, h, s) => say.Count(h, "{0} tank may hatch in a break; {1} may swim up in one, or too near.", "{0} tanks may hatch in a break; {1} may swim up in one, or too near.", s),
        };
    }

    /// <summary>"Tue 9 to Sun 14 Feb", "seen Wed 3 Feb", or "due by Sun 14 Feb, not reported".</summary>
    public static string Dates(StageOnCalendar stage, TimeWords time) => stage switch
    {
        { SeenOn: { } seen } => time.Say.Of("seen {0}|stage", TimeWords.Brief(seen, seen, time.Say)),
        { Forecast: { } f } when f.High80 < time.Today => time.Say.Of("due by {0}, not reported", TimeWords.Brief(f.High80, f.High80, time.Say)),
        { Forecast: var f } => TimeWords.Brief(f.Low80, f.High80, time.Say),
    };

    /// <summary>What the school's breaks make of it; null when they make nothing of it.</summary>
    public static string? Trouble(StageOnCalendar on, TimeWords time) => on switch
    {
        { SeenOn: not null } or { Break: null } => null,
        { Break: var closed } => time.Say.Of(
            closed.From < closed.First ? "{0} chance in or just before the break {1}" : "{0} chance in the break {1}",
            Percent(closed.Chance, time.Say), time.Stretch(closed.First, closed.Last)),
    };

    /// <summary>"60% chance on a closed day"; null when it was seen or is over, or when it is little more than weekends make of any date.</summary>
    public static string? Closed(StageOnCalendar on, TimeWords time) =>
        on is { SeenOn: null, ClosedChance: > 0.4 } && on.Forecast.High80 >= time.Today ? time.Say.Of("{0} chance on a closed day", Percent(on.ClosedChance, time.Say)) : null;

    /// <summary>In steps of 5: a forecast is no finer.</summary>
    public static string Percent(double chance, Say say) => chance switch
    {
        > 0.95 => say["over 95%"],
        < 0.05 => say["under 5%"],
        _ => (Math.Round(chance * 20) * 5).ToString("0", CultureInfo.InvariantCulture) + "%",
    };
}
