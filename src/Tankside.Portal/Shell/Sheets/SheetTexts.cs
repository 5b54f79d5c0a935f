namespace Tankside.Portal.Shell.Sheets;

/// <summary>What is shown and written of sheets: short cells, file names, and lines that no spreadsheet runs.</summary>
public static class SheetTexts
{
    private const int LongestName = 200;

    public static string Shortened(string text) => text.Length <= 40 ? text : string.Concat(text.AsSpan(0, 39), "…");

    /// <summary>The last part of whatever path a browser sends, without signs that no name holds.</summary>
    public static string FileName(string sent)
    {
        var name = new string([.. sent.Split('/', '\\')[^1].Where(c => !char.IsControl(c) && !char.IsSurrogate(c))]).Trim();
        return name.Length == 0 ? "sheet" : name.Length <= LongestName ? name : name[..LongestName];
    }

    public static string Line(IEnumerable<string> cells) => string.Join(',', cells.Select(Cell)) + "\r\n";

    /// <summary>A number is a number, also below nought; everything else that begins like a formula is disarmed.</summary>
    public static string Cell(string text)
    {
        var safe = text.Length > 0 && !CellWords.SaysNothing(text) && "=+-@\t\r\n".Contains(text[0], StringComparison.Ordinal) && CellWords.Number(text) is null ? $"'{text}" : text;
        return safe.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
