using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases.Files;
using Tankside.Portal.Releases.OwnColumns;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>A programme's own report: its columns as they are typed, and the file that is written by them.</summary>
public static class Columns
{
    private static readonly string[] Words = ["Eggs", ":", " ", "eggs_received", "egg_losses", "alevin_losses", "+", "-", "\"fixed\"", "\"", "# remark", "\n", "school", "survival_percent", "hatch_date", "Name: of: it", "=1+1"];

    private static readonly Target Own = new("own-columns", dice => Texts.Bytes(Texts.Of(dice, Words, 14, "")), Read) { Words = Words, LongestInput = ReportColumns.Longest, MostBytesEach = 6_000 };

    public static Target Target => Own;

    private static string Read(byte[] bytes)
    {
        var mapping = ColumnMapping.Read(Texts.Read(bytes));
        Held.That(mapping.Columns.Count + mapping.Troubles.Count > 0, "Nothing was read and nothing said.");
        Held.Said(mapping.Troubles.Select(t => t.Why));
        Held.That(mapping.Columns.Select(c => c.Name).Distinct().Count() == mapping.Columns.Count, "Two columns have one name.");
        var line = TotalsCsv.Line(mapping.Columns.Select(c => (object?)c.Name));
        if (mapping.Columns.Count > 0)
        {
            var back = Portal.Shell.Sheets.TextRows.Read(new StringReader(line), ',').Single().Cells;
            Held.That(mapping.Columns.Count > Portal.Shell.Sheets.SheetLimits.MostColumns || back.Select(c => c.TrimStart('\'')).SequenceEqual(mapping.Columns.Select(c => c.Name.TrimStart('\''))), "The headings come back otherwise than they were written.");
            Held.That(back.All(c => c.Length == 0 || c[0] is not ('=' or '+' or '-' or '@')), "A heading was written that a spreadsheet runs.");
        }

        return $"{mapping.Columns.Count > 0} {string.Join(' ', mapping.Troubles.Select(t => t.Why).Distinct().Take(4))}";
    }
}
