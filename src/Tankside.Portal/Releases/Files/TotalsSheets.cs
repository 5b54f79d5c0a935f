using System.Globalization;
using Tankside.Hatchery.Releases;

namespace Tankside.Portal.Releases.Files;

/// <summary>A table of the account: the values that the spreadsheet, the report and the page show.</summary>
public sealed record TotalsSheet(string Name, IReadOnlyList<string> Columns, IEnumerable<IReadOnlyList<object?>> Rows);

/// <summary>The account as tables, one a grouping.</summary>
public static class TotalsSheets
{
    private static readonly string[] Survival = ["tanks_finished", "tanks_supplied", "survival_percent", "survival_low", "survival_high", "percent_if_rest_lost", "percent_if_rest_average", "percent_if_rest_all_live"];

    public static IReadOnlyList<TotalsSheet> Of(SeasonTotals totals) =>
    [
        new("Tanks", [.. TotalsColumns.All.Select(c => c.Name)], totals.Tanks.Select(t => (IReadOnlyList<object?>)[.. TotalsColumns.All.Select(c => c.Of(totals, t))])),
        OfTanks("Schools", "school", Groupings.Tanks(totals, Grouping.School)),
        OfTanks("Lots", "lot", Groupings.Tanks(totals, Grouping.Lot)),
        OfTanks("Species", "species", Groupings.Tanks(totals, Grouping.Species)),
        OfTanks("Rooms together", "tanks_together", Groupings.Pools(totals)),
        Sites(totals),
        Permits(totals),
        new("About", ["what", "value"], About(totals)),
    ];

    public static TotalsSheet OfTanks(string name, string first, IReadOnlyList<TankGroup> groups) => new(
        name,
        [first, "tanks", .. TotalsColumns.Counts.Select(c => c.Name), .. Survival],
        groups.Select(g => (IReadOnlyList<object?>)
        [
            g.Name, g.Tanks.Count, .. TotalsColumns.Counts.Select(c => (object?)c.Of(g.Balance)),
            g.Pooled.Finished, g.Pooled.Supplied, TotalsColumns.Rounded(g.Pooled.Rate.Percent), TotalsColumns.Rounded(g.Pooled.Rate.Low),
            TotalsColumns.Rounded(g.Pooled.Rate.High), TotalsColumns.Rounded(g.Pooled.IfRestLost), TotalsColumns.Rounded(g.Pooled.IfRestAverage),
            TotalsColumns.Rounded(g.Pooled.IfRestAllLive),
        ]));

    public static TotalsSheet Sites(SeasonTotals totals) => new(
        "Sites",
        ["release_site", "water", "permit", "species", "tanks", "releases", "released", "first_release_date", "last_release_date"],
        Groupings.Sites(totals).Select(g => (IReadOnlyList<object?>)
        [
            g.Name, g.Water, Several(g.Releases.Select(r => r.Permit)), Several(g.Releases.Select(r => r.Species)),
            g.Tanks, g.Releases.Count, g.Fish, g.First, g.Last,
        ]));

    /// <summary>A permit without a release stands here with 0: that is its nil report.</summary>
    public static TotalsSheet Permits(SeasonTotals totals) => new(
        "Permits",
        ["permit", "water", "allowed", "released", "released_in_all_seasons", "left", "tanks", "releases", "first_release_date", "last_release_date"],
        Groupings.Permits(totals).Select(g => (IReadOnlyList<object?>)
        [
            g.Name, g.Water, g.Allowed, g.Fish, g.ReleasedEver, g.Allowed - g.ReleasedEver, g.Tanks, g.Releases.Count, g.First, g.Last,
        ]));

    private static IEnumerable<IReadOnlyList<object?>> About(SeasonTotals totals)
    {
        yield return ["programme", totals.Programme];
        yield return ["season", totals.Season];
        yield return ["entered_until_utc", Moment(totals.EnteredUntil)];
        yield return ["sealed_utc", Moment(totals.Seal?.At)];
        yield return ["sha256_of_csv", totals.Seal?.Checksum];
        foreach (var (note, number) in MethodNotes.All.Select((n, i) => (n, i + 1)))
        {
            yield return [$"note_{number.ToString(CultureInfo.InvariantCulture)}", note];
        }
    }

    private static string Several(IEnumerable<string> names) => string.Join("; ", names.Distinct().Order(StringComparer.Ordinal));

    private static string? Moment(DateTime? utc) => utc?.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
