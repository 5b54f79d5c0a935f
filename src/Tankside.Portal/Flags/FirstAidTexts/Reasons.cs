using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>The reason of a finding in the language of whom it is sent to; the numbers are the same in both.</summary>
public static class Reasons
{
    public static string Of(Finding finding, SchoolCalendar calendar, TemperatureUnit unit, int fish, DateTime now, string language) =>
        Bilingual.IsSpanish(language) ? new ReasonWordsSpanish(calendar, fish, now).Of(finding) : new ReasonWords(calendar, fish, now, unit).Of(finding);
}
