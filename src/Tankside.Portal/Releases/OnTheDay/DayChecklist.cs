namespace Tankside.Portal.Releases.OnTheDay;

/// <summary>What an adult looks at before fish are let go. The agency's, the district's and the site's own rules come first.</summary>
public static class DayChecklist
{
    public static IReadOnlyList<(string Key, string Text)> Points { get; } =
    [
        ("permit", "The permit is with the fish; its water, species, days and conditions were read once more."),
        ("flow", "An adult saw the water first: not high, not fast, not muddy. In doubt nobody goes near it."),
        ("footing", "Everybody stands where the bank is firm and dry; nobody on wet rock, ice or undercut edges."),
        ("adults", "An adult stands between the children and the water, as many as the district asks for; nobody is there alone."),
        ("cold", "Nobody wades deeper than the agency allows; dry clothes and a warm place wait for whoever gets wet."),
        ("lifting", "Two adults carry a full cooler; buckets are half full; full tanks are not lifted."),
        ("tempered", "The stream was measured where the fish go in, and the bucket was brought near it by cups."),
        ("sick", "Deformed or sick fish are set apart and not let go."),
        ("telephone", "Somebody knows where a telephone works and what to tell the ambulance about the way."),
        ("land", "Bucket water and gravel go onto dry ground; nets and boots are cleaned, drained and dried."),
    ];

    /// <summary>Those of the ticked that are points of the list.</summary>
    public static List<string> Known(IEnumerable<string>? ticked) => [.. Points.Select(p => p.Key).Where((ticked ?? []).Contains)];
}
