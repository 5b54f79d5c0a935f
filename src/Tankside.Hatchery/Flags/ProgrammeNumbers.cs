using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Flags;

/// <summary>Every number that a programme may set for itself: the limits of the rules, and those that only a page or a reminder reads.</summary>
public static class ProgrammeNumbers
{
    private const string Practice = "common practice, no source", Judgement = "judgement, no source";

    public static IReadOnlyList<Setting> All { get; } =
    [
        .. Limits.All,
        Of(EggSettings.PerLitre, "eggs a litre of tank", "about one fingerling for half a US gallon: " + Practice),
        Of(EggSettings.Reserve, "share ordered on top", "5-15% are usual: " + Practice),
        Of(EggSettings.Pack, "eggs of one pack", "no source: ask the hatchery"),
        Of(EggSettings.Certainty, "chance of reaching the wish", Judgement),
        Of(TemperingSettings.Apart, "°C between bucket and stream at most", "5 °F, as most permits ask: " + Practice),
        Of(TemperingSettings.Coldest, "°C, coldest set-point for fry that wait for their release", "40 °F: " + Practice),
        Of(TemperingSettings.Warmest, "°C, warmest set-point for fry that wait for their release", "56 °F: " + Practice),
        .. Keeping.All.Select(k => new Setting(k.Key, k.Default, "days kept", Judgement + "; a law, the district or the agency may ask for more or less")),
        new(PermitRules.RemindSetting, PermitRules.RemindDays, "days before a report is due", "a weekend and a day: " + Judgement),
    ];

    private static readonly Dictionary<string, Setting> ByKey = All.ToDictionary(s => s.Key, StringComparer.Ordinal);

    public static Setting? Find(string key) => ByKey.GetValueOrDefault(key);

    private static Setting Of((string Key, double Default) number, string unit, string source) => new(number.Key, number.Default, unit, source);
}
