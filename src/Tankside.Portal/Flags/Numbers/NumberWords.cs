namespace Tankside.Portal.Flags.Numbers;

/// <summary>A number that a programme may set, in words.</summary>
/// <param name="Key">As it is stored.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Changes">One sentence: what another value changes.</param>
public sealed record NumberWord(string Key, string Name, string Changes);

/// <summary>Numbers about one subject of the trade.</summary>
/// <param name="Slug">As its address says it.</param>
public sealed record NumberGroup(string Slug, string Name, IReadOnlyList<NumberWord> Numbers);

/// <summary>Names and sentences of all numbers; a test finds one without words and words without a number.</summary>
public static partial class NumberWords
{
    public static IReadOnlyList<NumberGroup> Groups { get; } =
    [
        WarmAndCold, Warming, Oxygen, Power, AmmoniaAndNitrite, ChlorineAndMetals, Acid, Deaths, InCommon, Silence, Doubt, Faults, HatchAndFeeding, SetPoints,
        Leaving, FirstAid, LossOfHeat, LossOfWater, LossOfLife, Spares, EggsAndReleases, Kept,
    ];

    private static readonly Dictionary<string, (NumberWord Word, NumberGroup Group)> ByKey =
        Groups.SelectMany(g => g.Numbers.Select(n => (n, g))).ToDictionary(p => p.n.Key, StringComparer.Ordinal);

    public static (NumberWord Word, NumberGroup Group)? Find(string key) => ByKey.TryGetValue(key, out var found) ? found : null;
}
