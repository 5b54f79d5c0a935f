using System.Globalization;
using CsvHelper;

namespace Tankside.Science.Tests;

/// <summary>Rows of a reference file, as columns by name; every file keeps its source column.</summary>
internal static class Rows
{
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Of(string file)
    {
        using var reader = new StreamReader(Path.Combine(AppContext.BaseDirectory, "Data", file));
        using var csv = new CsvReader(reader, CultureInfo.InvariantCulture);
        var rows = new List<IReadOnlyDictionary<string, string>>();
        csv.Read();
        csv.ReadHeader();
        while (csv.Read()) rows.Add(csv.HeaderRecord!.ToDictionary(name => name, name => csv.GetField(name)!));
        return rows;
    }

    public static double Number(this IReadOnlyDictionary<string, string> row, string column) => Parse(row[column]);

    public static double Parse(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);

    public static TheoryData<int> Indices(string file, Func<IReadOnlyDictionary<string, string>, bool> wanted)
    {
        var data = new TheoryData<int>();
        var rows = Of(file);
        for (var i = 0; i < rows.Count; i++)
        {
            if (wanted(rows[i])) data.Add(i);
        }

        return data;
    }

    public static void Near(double expected, double actual, double tolerance, string what) =>
        Assert.True(Math.Abs(expected - actual) <= tolerance + 1e-9,
            FormattableString.Invariant($"{what}: expected {expected} ± {tolerance}, got {actual}"));
}
