using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>The reason of a finding in the language of whom it is sent to; the numbers are the same in both.</summary>
public static class Reasons
{
    public static string Of(Finding finding, SchoolCalendar calendar, TemperatureUnit unit, int fish, DateTime now, string language, OwnTexts texts)
    {
        var names = StageNames.Of(texts);
        return Bilingual.IsSpanish(language) ? new ReasonWordsSpanish(calendar, fish, now, names).Of(finding) : new ReasonWords(calendar, fish, now, unit, names).Of(finding);
    }
}
