namespace Tankside.Hatchery.People;

/// <summary>A text or a name that this programme says in its own words, in both languages. Without a row ours stands.</summary>
public sealed class OwnText
{
    /// <summary>Of all lines of one text together.</summary>
    public const int Longest = 2000;

    public Guid ProgrammeId { get; init; }

    /// <summary>Which text it is, e.g. "aid.warm.ask".</summary>
    public required string Key { get; init; }

    public required string En { get; set; }

    public required string Es { get; set; }

    public int Version { get; set; }
}

/// <summary>The texts and names that a programme says in its own words.</summary>
public sealed class OwnTexts
{
    public static OwnTexts None { get; } = new([]);

    private readonly Dictionary<string, OwnText> byKey;

    public OwnTexts(IEnumerable<OwnText> own) => byKey = own.ToDictionary(t => t.Key, StringComparer.Ordinal);

    /// <summary>Null where ours stands.</summary>
    public OwnText? Find(string key) => byKey.GetValueOrDefault(key);

    /// <summary>With other texts in the place of all whose keys begin so.</summary>
    public OwnTexts With(string start, IEnumerable<OwnText> others) =>
        new(byKey.Values.Where(t => !t.Key.StartsWith(start, StringComparison.Ordinal)).Concat(others));

    /// <summary>All whose keys begin so, by key.</summary>
    public IEnumerable<OwnText> Under(string start) =>
        byKey.Values.Where(t => t.Key.StartsWith(start, StringComparison.Ordinal)).OrderBy(t => t.Key, StringComparer.Ordinal);

    /// <summary>Whether any text is said whose key begins so.</summary>
    public bool AnyUnder(string start) => byKey.Keys.Any(k => k.StartsWith(start, StringComparison.Ordinal));
}
