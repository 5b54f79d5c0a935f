using System.Globalization;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>What the headings of a kind of sheet mean: whatever tells one meaning from another, or null; and whether one names its scale.</summary>
public sealed record HeadingReader(Func<string, object?> MeaningOf, Func<string, bool> NamesScale);

/// <summary>Where the headings of a sheet stand and what they are. Logger files and school sheets have lines above them.</summary>
/// <param name="LastRow">Number of the (lower) heading row; what stands below it are rows of readings.</param>
/// <param name="Titles">The headings, a column each; empty where a column has none.</param>
/// <param name="Above">What stands above, so that nothing is passed over in silence.</param>
public sealed record SheetHeader(int LastRow, IReadOnlyList<string> Titles, IReadOnlyList<string> Above)
{
    /// <summary>Rows among which the headings are looked for.</summary>
    private const int Searched = 40;

    /// <summary>The row, or the pair of rows under a merged heading, that names most of what such a sheet can hold.</summary>
    public static SheetHeader Find(IEnumerable<SheetRow> rows, HeadingReader reader)
    {
        // Each row is tried alone, below the one above and above the one below: its cells are made plain and understood once.
        var first = rows.Where(r => !r.IsBlank).Take(Searched).Select(r => r with { Cells = [.. r.Cells.Select(OneLine)] }).ToList();
        reader = Remembered(reader);
        var best = new Candidate(0, 0, 0, []);
        foreach (var (index, row) in first.Index())
        {
            Try(index, index, row.Cells);
            if (index > 0 && !IsTitle(first[index - 1]) && !LooksLikeReadings(row))
            {
                Try(index - 1, index, Joined(first[index - 1], row, reader));
            }
        }

        return best.Score == 0
            ? new SheetHeader(0, [.. Enumerable.Repeat("", first.Count > 0 ? first.Max(r => r.Cells.Count) : 0)], []) // No headings: every row may be a reading.
            : new SheetHeader(first[best.To].Number, best.Titles, [.. first[..best.From].Select(r => OneLine(string.Join(" ", r.Cells))).Where(t => t.Length > 0)]);

        void Try(int from, int to, IReadOnlyList<string> titles)
        {
            // A heading is short; a note about the sheet that happens to hold the words is not.
            var score = titles.Where(t => t.Length <= 80).Select(reader.MeaningOf).OfType<object>().Distinct().Count();
            if (score > best.Score)
            {
                best = new Candidate(score, from, to, titles);
            }
        }
    }

    /// <summary>A merged heading stands in its first column only; the columns under it that it explains take it from there.</summary>
    private static List<string> Joined(SheetRow upper, SheetRow lower, HeadingReader reader)
    {
        var titles = new List<string>();
        var merged = "";
        for (var column = 0; column < Math.Max(upper.Cells.Count, lower.Cells.Count); column++)
        {
            var (above, below) = (upper[column], lower[column]);
            merged = above.Length > 0 ? below.Length > 0 ? above : "" : below.Length > 0 ? merged : "";
            titles.Add(above.Length > 0 ? $"{above} {below}".Trim() : Explains(merged, below, reader) ? $"{merged} {below}" : below);
        }

        return titles;
    }

    /// <summary>True when the heading below says more, or names its scale, only together with the merged one above: "Dead" over "alevins".</summary>
    private static bool Explains(string merged, string below, HeadingReader reader)
    {
        if (merged.Length == 0)
        {
            return false;
        }

        var (alone, together) = (reader.MeaningOf(below), reader.MeaningOf($"{merged} {below}"));
        return together is not null && (!together.Equals(reader.MeaningOf(merged)) || alone is null
            ? !together.Equals(alone)
            : together.Equals(alone) && !reader.NamesScale(below) && reader.NamesScale(merged));
    }

    /// <param name="From">Place of the upper heading row among the first rows.</param>
    private sealed record Candidate(int Score, int From, int To, IReadOnlyList<string> Titles);

    /// <summary>A line that stands alone at the left names the sheet, not its columns.</summary>
    private static bool IsTitle(SheetRow row) => row[0].Length > 0 && row.Cells.Skip(1).All(string.IsNullOrWhiteSpace);

    private static bool LooksLikeReadings(SheetRow row) => row.Cells.Any(c =>
        double.TryParse(c.Trim().Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out _) || (c.Length >= 6 && char.IsAsciiDigit(c.Trim().FirstOrDefault())));

    private static HeadingReader Remembered(HeadingReader reader)
    {
        var known = new Dictionary<string, object?>(StringComparer.Ordinal);
        return reader with { MeaningOf = t => known.TryGetValue(t, out var meaning) ? meaning : known[t] = reader.MeaningOf(t) };
    }

    private static string OneLine(string text)
    {
        var line = string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return line.Length <= 120 ? line : string.Concat(line.AsSpan(0, 119), "…");
    }
}
