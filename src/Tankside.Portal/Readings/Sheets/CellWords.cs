using System.Globalization;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>What people write into cells: numbers with point or comma, ticks, shares, and signs for "not looked".</summary>
public static class CellWords
{
    private static readonly HashSet<string> NotLooked = new(StringComparer.OrdinalIgnoreCase) { "", "-", "–", "—", "n/a", "na", "n.a.", "nd", "s/d", "not taken", "not read" };

    private static readonly HashSet<string> Yes = new(StringComparer.OrdinalIgnoreCase)
    {
        "y", "yes", "x", "✓", "✔", "☑", "s", "si", "sí", "t", "true", "1", "ok", "on", "good", "verdadero", "bien",
    };

    private static readonly HashSet<string> No = new(StringComparer.OrdinalIgnoreCase) { "n", "no", "f", "false", "0", "off", "not", "✗", "✘", "falso", "mal", "bad" };

    private static readonly Dictionary<string, Share> Shares = new(StringComparer.OrdinalIgnoreCase)
    {
        ["none"] = Share.None,
        ["no"] = Share.None,
        ["0"] = Share.None,
        ["0%"] = Share.None,
        ["ninguno"] = Share.None,
        ["ninguna"] = Share.None,
        ["some"] = Share.Some,
        ["few"] = Share.Some,
        ["algunos"] = Share.Some,
        ["algunas"] = Share.Some,
        ["half"] = Share.Half,
        ["50%"] = Share.Half,
        ["mitad"] = Share.Half,
        ["la mitad"] = Share.Half,
        ["most"] = Share.Most,
        ["mayoría"] = Share.Most,
        ["la mayoría"] = Share.Most,
        ["all"] = Share.All,
        ["100%"] = Share.All,
        ["todos"] = Share.All,
        ["todas"] = Share.All,
    };

    /// <summary>True for a cell that says that nobody looked; it is as good as empty.</summary>
    public static bool SaysNothing(string cell) => NotLooked.Contains(cell);

    public static double? Number(string cell) =>
        double.TryParse(cell.Replace(',', '.').TrimEnd('%').TrimEnd(), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
        && double.IsFinite(number) ? number : null;

    /// <summary>A whole number; "3.0" is one, as some programs save it.</summary>
    public static int? Count(string cell) => Number(cell) is { } number && number == Math.Floor(number) && Math.Abs(number) <= int.MaxValue ? (int)number : null;

    public static bool? YesNo(string cell) => Yes.Contains(cell) ? true : No.Contains(cell) ? false : null;

    public static Share? ShareOf(string cell) => Shares.TryGetValue(cell, out var share) ? share : null;
}
