using System.Globalization;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>Where the headings of a sheet stand and what they are. Logger files and school sheets have lines above them.</summary>
/// <param name="LastRow">Number of the (lower) heading row; what stands below it are rows of readings.</param>
/// <param name="Titles">The headings, a column each; empty where a column has none.</param>
/// <param name="Above">What stands above, so that nothing is passed over in silence.</param>
public sealed record SheetHeader(int LastRow, IReadOnlyList<string> Titles, IReadOnlyList<string> Above)
{
    /// <summary>Rows among which the headings are looked for.</summary>
    private const int Searched = 40;

    /// <summary>The row, or the pair of rows under a merged heading, that names most of what a reading can hold.</summary>
    public static SheetHeader Find(IEnumerable<SheetRow> rows)
    {
        var first = rows.Where(r => !r.IsBlank).Take(Searched).ToList();
        var best = (Score: 0, Row: -1, Titles: (IReadOnlyList<string>)[]);
        foreach (var (index, row) in first.Index())
        {
            Try(index, [.. row.Cells.Select(OneLine)]);
            if (index > 0 && !LooksLikeReadings(row))
            {
                Try(index, Joined(first[index - 1], row));
            }
        }

        return best.Row < 0
            ? new SheetHeader(0, [.. Enumerable.Repeat("", first.Count > 0 ? first.Max(r => r.Cells.Count) : 0)], []) // No headings: every row may be a reading.
            : new SheetHeader(first[best.Row].Number, best.Titles, [.. first[..best.Row].Select(r => OneLine(string.Join(" ", r.Cells))).Where(t => t.Length > 0)]);

        void Try(int index, IReadOnlyList<string> titles)
        {
            var meanings = titles.Select(HeaderWords.MeaningOf).OfType<ColumnMeaning>().Distinct().ToList();
            // A heading is short; a note about the sheet that happens to hold the words is not.
            var score = titles.Any(t => t.Length > 80) ? meanings.Count - 1 : meanings.Count;
            if (score > best.Score)
            {
                best = (score, index, titles);
            }
        }
    }

    /// <summary>A merged heading stands in its first column only; the columns under it without a heading of their own take it from there.</summary>
    private static List<string> Joined(SheetRow upper, SheetRow lower)
    {
        var titles = new List<string>();
        var merged = "";
        for (var column = 0; column < Math.Max(upper.Cells.Count, lower.Cells.Count); column++)
        {
            var (above, below) = (OneLine(upper[column]), OneLine(lower[column]));
            merged = above.Length > 0 ? below.Length > 0 ? above : "" : below.Length > 0 ? merged : "";
            titles.Add($"{(above.Length > 0 ? above : merged)} {below}".Trim());
        }

        return titles;
    }

    private static bool LooksLikeReadings(SheetRow row) => row.Cells.Any(c =>
        double.TryParse(c.Trim().Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out _) || (c.Length >= 6 && char.IsAsciiDigit(c.Trim().FirstOrDefault())));

    private static string OneLine(string text)
    {
        var line = string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return line.Length <= 120 ? line : string.Concat(line.AsSpan(0, 119), "…");
    }
}
