namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>First aid in one language: what to say, in this order, what to ask next, and the guard sentences that stand beside it.</summary>
/// <param name="Guard">The caution that no shortening may drop; null where nobody goes near a plug.</param>
public sealed record FirstAidCard(IReadOnlyList<string> Say, IReadOnlyList<string> Cautions, string AskNext, string? Guard)
{
    /// <summary>How many of the steps, from the first, are the programme's own.</summary>
    public int Own { get; init; }
}

/// <summary>First aid for one trouble at one stage, in both languages.</summary>
public sealed record FirstAidScript(IReadOnlyList<Bilingual> Say, Bilingual AskNext, IReadOnlyList<Bilingual> Cautions)
{
    /// <summary>How many of the steps, from the first, are the programme's own.</summary>
    public int Own { get; init; }

    /// <summary>The programme's own steps, and of ours those asked for, while they are said.</summary>
    /// <param name="ours">Their places among ours.</param>
    public IReadOnlyList<Bilingual> Shortened(params int[] ours) => [.. Say.Take(Own), .. Say.Count == Own ? [] : ours.Select(i => Say[Own + i])];

    public FirstAidCard In(string language) => new(
        [.. Say.Select(s => s.In(language))],
        [.. Cautions.Select(c => c.In(language))],
        AskNext.In(language),
        Cautions.Contains(Warnings.AdultAtThePlug) ? Warnings.PlugInShort.In(language) : null)
    {
        Own = Own,
    };
}
