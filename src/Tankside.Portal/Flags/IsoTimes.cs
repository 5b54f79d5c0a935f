using System.Globalization;
using Tankside.Hatchery.People;

namespace Tankside.Portal.Flags;

/// <summary>Times as the API writes them: ISO 8601 with the programme's offset at that moment.</summary>
public static class IsoTimes
{
    public static string Iso(this ProgrammeClock clock, DateTime utc) =>
        TimeZoneInfo.ConvertTime(new DateTimeOffset(DateTime.SpecifyKind(utc, DateTimeKind.Utc)), clock.Zone)
            .ToString("yyyy-MM-ddTHH:mm:sszzz", CultureInfo.InvariantCulture);
}
