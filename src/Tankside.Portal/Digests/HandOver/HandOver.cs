namespace Tankside.Portal.Digests.HandOver;

/// <summary>One part of the pack: what it is, and its lines; the page shows it and the paper draws it.</summary>
/// <param name="Meaning">What whoever takes over has to know about it.</param>
/// <param name="Empty">What stands there instead of lines when there are none.</param>
/// <param name="Widths">The share of the sheet that each column takes.</param>
public sealed record HandOverPart(
    string Id, string Heading, string Meaning, IReadOnlyList<string> Heads, IReadOnlyList<double> Widths, IReadOnlyList<IReadOnlyList<string>> Rows, string Empty);

/// <summary>All that a coordinator hands over to the next, at one moment.</summary>
public sealed record HandOverPack(string Programme, string At, DateTime Now, IReadOnlyList<HandOverPart> Parts);
