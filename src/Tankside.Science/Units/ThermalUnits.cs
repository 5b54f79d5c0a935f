namespace Tankside.Science.Units;

/// <summary>
/// Accumulated temperature above freezing, in degree-days: the sum over days of the daily mean above 0 °C (32 °F).
/// </summary>
/// <remarks>
/// 1 °C-day = 1.8 °F-days, both with freezing as base. The sum that a stage needs is not a constant: brook trout take
/// 432 °F-days at 35 °F and 792 at 50 °F (Leitritz and Lewis 1976 table; the two cells seen in a second document), so thermal
/// units are shown beside a forecast and never make one. A number of units without its scale and its starting day means nothing.
/// Source: hatchery practice. How known: several practical pages seen.
/// </remarks>
/// <param name="CelsiusDays">Units on the Celsius scale, °C-days, base 0 °C.</param>
public readonly record struct ThermalUnits(double CelsiusDays)
{
    /// <summary>The same sum on the Fahrenheit scale, °F-days above 32 °F: 1.8 times the °C-days.</summary>
    public double FahrenheitDays => CelsiusDays * 1.8;

    /// <summary>Units given in °F-days above 32 °F.</summary>
    /// <param name="fahrenheitDays">Units, °F-days, base 32 °F.</param>
    public static ThermalUnits FromFahrenheitDays(double fahrenheitDays) => new(fahrenheitDays / 1.8);

    /// <summary>The sum of daily means. A day whose mean is under 0 °C adds nothing.</summary>
    /// <param name="dailyMeans">Mean water temperature of each day, °C.</param>
    public static ThermalUnits Of(IEnumerable<Celsius> dailyMeans) =>
        new(dailyMeans.Sum(day => Math.Max(0, day.Degrees)));

    /// <summary>Units gathered in a number of days at one temperature: days x °C; nothing under 0 °C.</summary>
    /// <param name="water">Mean water temperature, °C.</param>
    /// <param name="days">Days, 0 or more.</param>
    public static ThermalUnits At(Celsius water, double days) => new(Math.Max(0, water.Degrees) * days);

    /// <summary>
    /// Days at one temperature until the sum stands at <paramref name="target"/>: (target - have) / °C. Zero when it already
    /// does; null at or under 0 °C, where the sum stands still.
    /// </summary>
    /// <param name="target">The sum to reach, from the same starting day.</param>
    /// <param name="water">Water temperature, °C.</param>
    public double? DaysUntil(ThermalUnits target, Celsius water)
    {
        if (CelsiusDays >= target.CelsiusDays) return 0;
        return water.Degrees > 0 ? (target.CelsiusDays - CelsiusDays) / water.Degrees : null;
    }

    /// <summary>Adds two sums of the same egg's days.</summary>
    public static ThermalUnits operator +(ThermalUnits left, ThermalUnits right) => new(left.CelsiusDays + right.CelsiusDays);

    /// <summary>Adds two sums of the same egg's days.</summary>
    /// <param name="left">One sum.</param>
    /// <param name="right">The other.</param>
    public static ThermalUnits Add(ThermalUnits left, ThermalUnits right) => left + right;
}
