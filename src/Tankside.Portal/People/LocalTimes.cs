using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;

namespace Tankside.Portal.People;

/// <summary>Instants in words, on the programme's own clock.</summary>
internal static class LocalTimes
{
    public static string Day(Programme programme, DateTime utc, Say? say = null) => say is { IsSpanish: true }
        ? ProgrammeClock.Of(programme.TimeZone).Local(utc).ToString("d 'de' MMMM 'de' yyyy", say.Culture)
        : ProgrammeClock.Of(programme.TimeZone).Local(utc).ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    public static string Moment(Programme programme, DateTime utc, Say? say = null) => say is { IsSpanish: true }
        ? ProgrammeClock.Of(programme.TimeZone).Local(utc).ToString("dddd d 'de' MMMM 'de' yyyy, HH:mm", say.Culture)
        : ProgrammeClock.Of(programme.TimeZone).Local(utc).ToString("dddd d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture);
}
