using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Leaving;

/// <summary>Instants before and after this moment, short enough for a sentence with several of them.</summary>
public sealed class ClockWords(ProgrammeClock clock, DateTime now, Say? reader = null)
{
    private const long Step = 5 * TimeSpan.TicksPerMinute;

    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    private readonly Say say = reader ?? Say.InEnglish;

    private CultureInfo Reader => say.IsSpanish ? say.Culture : Plain;

    /// <summary>"15:15"</summary>
    public string Clock(DateTime utc) => clock.Local(utc).ToString("HH:mm", Plain);

    /// <summary>"Friday"</summary>
    public string Weekday(DateTime utc) => clock.Local(utc).ToString(Near(utc) ? "dddd" : say.IsSpanish ? "dddd d 'de' MMMM" : "dddd d MMMM", Reader);

    /// <summary>"Sat 02:00" within the week, "Sat 2 Jan 02:00" beyond.</summary>
    public string When(DateTime utc) => clock.Local(utc).ToString(Near(utc) ? "ddd HH:mm" : "ddd d MMM HH:mm", Reader);

    /// <summary>"at 14:40" today, "on Thu 09:10" within the week, "on Thu 5 Nov 09:10" beyond.</summary>
    public string At(DateTime utc) => clock.Day(utc) == clock.Day(now) ? say.Of("at {0}|hour", Clock(utc)) : say.Of("on {0}|day and hour", When(utc));

    /// <summary>The five minutes before: the near end of a range is never told later than it is.</summary>
    public static DateTime Before(DateTime utc) => new(utc.Ticks - (utc.Ticks % Step), DateTimeKind.Utc);

    /// <summary>The five minutes after.</summary>
    public static DateTime After(DateTime utc) => utc.Ticks % Step == 0 ? utc : Before(utc).AddTicks(Step);

    private bool Near(DateTime utc) => Math.Abs(clock.Day(utc).DayNumber - clock.Day(now).DayNumber) < 7;
}
