using System.Globalization;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>What people write into cells: numbers with point or comma, ticks, and signs for "not looked".</summary>
public static class CellWords
{
    private static readonly HashSet<string> NotLooked = new(StringComparer.OrdinalIgnoreCase) { "", "-", "–", "—", "n/a", "na", "n.a.", "nd", "s/d", "not taken", "not read" };

    private static readonly HashSet<string> Yes = new(StringComparer.OrdinalIgnoreCase)
    {
        "y", "yes", "x", "✓", "✔", "☑", "s", "si", "sí", "t", "true", "1", "ok", "on", "good", "verdadero", "bien",
    };

    private static readonly HashSet<string> No = new(StringComparer.OrdinalIgnoreCase) { "n", "no", "f", "false", "0", "off", "not", "✗", "✘", "falso", "mal", "bad" };

    /// <summary>True for a cell that says that nobody looked; it is as good as empty.</summary>
    public static bool SaysNothing(string cell) => NotLooked.Contains(cell);

    public static double? Number(string cell) =>
        double.TryParse(cell.Replace(',', '.').TrimEnd('%').TrimEnd(), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
        && double.IsFinite(number) ? number : null;

    /// <summary>A whole number; "3.0" is one, as some programs save it.</summary>
    public static int? Count(string cell) => Number(cell) is { } number && number == Math.Floor(number) && Math.Abs(number) <= int.MaxValue ? (int)number : null;

    public static bool? YesNo(string cell) => Yes.Contains(cell) ? true : No.Contains(cell) ? false : null;
}
