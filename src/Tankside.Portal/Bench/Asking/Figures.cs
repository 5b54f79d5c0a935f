using System.Globalization;

namespace Tankside.Portal.Bench.Asking;

/// <summary>Numbers as the bench writes them: invariant, and no longer than they are worth.</summary>
public static class Figures
{
    /// <summary>Rounds to six significant figures: enough for any instrument, without the noise of the arithmetic.</summary>
    public static double SixFigures(double value)
    {
        if (value == 0 || !double.IsFinite(value)) return value;
        var places = 5 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return places is >= 0 and <= 15 ? Math.Round(value, places) : value;
    }

    /// <summary>As an address or a field takes it.</summary>
    public static string Plain(double value) => Math.Round(value, 6).ToString("0.######", CultureInfo.InvariantCulture);

    /// <summary>For reading: three significant figures for small values, at most two decimals for large ones.</summary>
    public static string Brief(double value)
    {
        var size = Math.Abs(value);
        var pattern = size switch
        {
            >= 100 => "0",
            >= 10 => "0.#",
            >= 1 => "0.##",
            >= 0.1 => "0.###",
            >= 0.01 => "0.####",
            >= 0.001 => "0.#####",
            _ => "0.######",
        };
        return value.ToString(pattern, CultureInfo.InvariantCulture);
    }

    /// <summary>With this many decimals at most.</summary>
    public static string To(double value, int decimals) =>
        Math.Round(value, decimals).ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);

    /// <summary>A share as a percentage.</summary>
    public static string Percent(double share) => Brief(share * 100) + "%";
}
