namespace Tankside.Portal.Shell.Charts;

/// <summary>One way in or one known end, with its count.</summary>
/// <param name="Label">What it is, in the reader's language.</param>
/// <param name="Count">How many eggs or fish; not negative.</param>
/// <param name="Href">Where its entries are listed, if anywhere.</param>
public sealed record AccountEntry(string Label, int Count, string? Href = null);

/// <summary>The words of the account.</summary>
public sealed record AccountWords
{
    public string In { get; init; } = "Eggs in";

    public string Unaccounted { get; init; } = "Unaccounted";

    public string TooMany { get; init; } = "more ends than eggs: look for a count that is too high or a receipt that is missing";

    public string Table { get; init; } = "The account as a table";

    public string Entry { get; init; } = "Entry";

    public string Count { get; init; } = "Count";
}
