using Tankside.Science.Units;

namespace Tankside.Science.Growth;

/// <summary>How much dry food hatcheries give, percent of body weight a day, by water temperature and length of the fish.</summary>
/// <remarks>
/// Source: Leitritz and Lewis 1980, Trout and Salmon Culture, California Fish Bulletin 164, feeding chart for rainbow trout on dry pellets.
/// How known: every cell seen. The cells of 1-2 inches at 67 and 68 °F (9.1 and 9.4) look like misprints of 8.1 and 8.4; they stand here
/// as printed, and no classroom feeds fish at such temperatures.
/// </remarks>
public static class FeedChart
{
    /// <summary>The chart's temperatures, °F.</summary>
    public const int FromF = 36, ToF = 68;

    /// <summary>Rows by °F from 36, columns by length: under 1 inch, 1-2, ... 9-10, over 10 inches.</summary>
    private static readonly double[][] Percent =
    [
        [2.7, 2.2, 1.7, 1.3, 1.0, 0.8, 0.7, 0.6, 0.5, 0.5, 0.4], // 36 °F
        [2.7, 2.3, 1.8, 1.4, 1.1, 0.9, 0.7, 0.6, 0.5, 0.5, 0.4], // 37 °F
        [2.9, 2.4, 2.0, 1.5, 1.2, 0.9, 0.8, 0.7, 0.6, 0.5, 0.5], // 38 °F
        [3.0, 2.5, 2.2, 1.7, 1.3, 0.9, 0.8, 0.7, 0.6, 0.6, 0.5], // 39 °F
        [3.2, 2.6, 2.2, 1.7, 1.3, 1.0, 0.9, 0.8, 0.7, 0.6, 0.5], // 40 °F
        [3.3, 2.8, 2.2, 1.8, 1.4, 1.1, 0.9, 0.8, 0.7, 0.6, 0.5], // 41 °F
        [3.5, 2.8, 2.4, 1.8, 1.4, 1.2, 0.9, 0.8, 0.7, 0.6, 0.5], // 42 °F
        [3.6, 3.0, 2.5, 1.9, 1.4, 1.2, 1.0, 0.9, 0.8, 0.7, 0.6], // 43 °F
        [3.8, 3.1, 2.5, 2.0, 1.5, 1.3, 1.0, 0.9, 0.8, 0.8, 0.6], // 44 °F
        [4.0, 3.3, 2.7, 2.1, 1.6, 1.3, 1.1, 1.0, 0.9, 0.8, 0.7], // 45 °F
        [4.1, 3.4, 2.8, 2.2, 1.7, 1.4, 1.2, 1.0, 0.9, 0.8, 0.7], // 46 °F
        [4.3, 3.6, 3.0, 2.3, 1.7, 1.4, 1.2, 1.0, 0.9, 0.8, 0.7], // 47 °F
        [4.5, 3.8, 3.0, 2.4, 1.8, 1.5, 1.3, 1.1, 1.0, 0.9, 0.8], // 48 °F
        [4.7, 3.9, 3.2, 2.5, 1.9, 1.5, 1.3, 1.1, 1.0, 0.9, 0.8], // 49 °F
        [5.2, 4.3, 3.4, 2.7, 2.0, 1.7, 1.4, 1.2, 1.1, 1.0, 0.9], // 50 °F
        [5.4, 4.5, 3.5, 2.8, 2.1, 1.7, 1.5, 1.3, 1.1, 1.0, 0.9], // 51 °F
        [5.4, 4.5, 3.6, 2.8, 2.1, 1.7, 1.5, 1.3, 1.1, 1.0, 0.9], // 52 °F
        [5.6, 4.7, 3.8, 2.9, 2.2, 1.8, 1.5, 1.3, 1.1, 1.1, 1.0], // 53 °F
        [5.8, 4.9, 3.9, 3.0, 2.3, 1.9, 1.6, 1.4, 1.3, 1.1, 1.0], // 54 °F
        [6.1, 5.1, 4.2, 3.2, 2.4, 2.0, 1.6, 1.4, 1.3, 1.1, 1.0], // 55 °F
        [6.3, 5.3, 4.3, 3.3, 2.5, 2.0, 1.7, 1.5, 1.3, 1.2, 1.0], // 56 °F
        [6.7, 5.5, 4.5, 3.5, 2.6, 2.1, 1.8, 1.5, 1.4, 1.2, 1.1], // 57 °F
        [7.0, 5.8, 4.8, 3.6, 2.7, 2.2, 1.9, 1.6, 1.4, 1.3, 1.2], // 58 °F
        [7.3, 6.0, 5.0, 3.7, 2.8, 2.3, 1.9, 1.7, 1.5, 1.3, 1.2], // 59 °F
        [7.5, 6.3, 5.1, 3.9, 3.0, 2.4, 2.0, 1.7, 1.5, 1.4, 1.3], // 60 °F
        [7.8, 6.5, 5.3, 4.1, 3.1, 2.5, 2.0, 1.8, 1.6, 1.4, 1.3], // 61 °F
        [8.1, 6.7, 5.5, 4.3, 3.2, 2.6, 2.1, 1.8, 1.6, 1.5, 1.4], // 62 °F
        [8.4, 7.0, 5.7, 4.5, 3.4, 2.7, 2.1, 1.9, 1.7, 1.5, 1.4], // 63 °F
        [8.7, 7.2, 5.9, 4.7, 3.5, 2.8, 2.2, 1.9, 1.7, 1.6, 1.5], // 64 °F
        [9.0, 7.5, 6.1, 4.9, 3.6, 2.9, 2.2, 2.0, 1.8, 1.6, 1.5], // 65 °F
        [9.3, 7.8, 6.3, 5.1, 3.8, 3.0, 2.3, 2.0, 1.8, 1.6, 1.6], // 66 °F
        [9.6, 9.1, 6.6, 5.3, 3.9, 3.1, 2.4, 2.1, 1.9, 1.7, 1.6], // 67 °F
        [9.9, 9.4, 6.9, 5.5, 4.0, 3.2, 2.5, 2.1, 2.0, 1.8, 1.7], // 68 °F
    ];

    /// <summary>Percent of body weight a day; null outside the chart's temperatures. Between two °F rows the colder one holds.</summary>
    /// <param name="water">Mean water temperature, °C.</param>
    /// <param name="lengthCm">Mean length of the fish, cm; above 0.</param>
    public static double? PercentADay(Celsius water, double lengthCm)
    {
        Require.NotNegative(lengthCm, nameof(lengthCm));
        var row = (int)Math.Floor(water.Fahrenheit + 1e-9) - FromF;
        if (row < 0 || row >= Percent.Length) return null;
        return Percent[row][Math.Min((int)(lengthCm / FishSize.CmPerInch), Percent[row].Length - 1)];
    }

    /// <summary>
    /// Haskell's rule: food for a day, percent of body weight, from how the fish grow: 3 x conversion x daily growth in length x 100 over length.
    /// </summary>
    /// <remarks>
    /// Source: Haskell 1959, as given in Piper and others 1982, Fish Hatchery Management (from memory). It agrees with the chart from about
    /// 1.5 inches on and reads high below 1 inch.
    /// </remarks>
    /// <param name="conversion">Weight of food for a weight of growth, dry food about 1.2.</param>
    /// <param name="growthCmADay">Growth in length, cm a day.</param>
    /// <param name="lengthCm">Length now, cm; above 0.</param>
    public static double Haskell(double conversion, double growthCmADay, double lengthCm) => 300 * conversion * growthCmADay / lengthCm;
}
