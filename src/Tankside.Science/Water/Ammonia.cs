using Tankside.Science.Units;

namespace Tankside.Science.Water;

/// <summary>Total and unionised (toxic) ammonia in fresh water. Every amount is as nitrogen unless the name says NH3.</summary>
/// <remarks>
/// Source: Emerson, Russo, Lund and Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383. How known: formula from memory,
/// checked on values quoted from the paper (second-hand copy). Documented for 0-30 °C and pH 5-10; the functions throw
/// outside 0-40 °C and pH 0-14. Never judge ammonia without pH and temperature.
/// </remarks>
public static class Ammonia
{
    /// <summary>Grams of NH3 in a gram of NH3-N: 17.031 / 14.007 = 1.216. Atomic weights.</summary>
    public const double NH3PerN = 17.031 / 14.007;

    /// <summary>pKa of ammonium: 0.09018 + 2729.92 / T, T in kelvin. 0-40 °C; throws outside. Emerson and others 1975.</summary>
    /// <param name="water">Water temperature, °C.</param>
    public static double PKa(Celsius water) =>
        0.09018 + (2729.92 / (Require.Within(water.Degrees, 0, 40, nameof(water)) + 273.15));

    /// <summary>
    /// Share of total ammonia that is unionised: 1 / (1 + 10^(pKa - pH)), 0 to 1. Range and source as for all of these.
    /// </summary>
    /// <param name="water">Water temperature, °C.</param>
    /// <param name="pH">pH of the water.</param>
    public static double UnionizedFraction(Celsius water, double pH) =>
        1 / (1 + Math.Pow(10, PKa(water) - Require.Within(pH, 0, 14, nameof(pH))));

    /// <summary>Unionised ammonia as NH3-N, mg/L: total x <see cref="UnionizedFraction"/>.</summary>
    /// <param name="totalN">Total ammonia as N, mg/L; 0 or more, throws otherwise.</param>
    /// <param name="pH">pH of the water.</param>
    /// <param name="water">Water temperature, °C.</param>
    public static MilligramsPerLitre UnionizedN(MilligramsPerLitre totalN, double pH, Celsius water) =>
        new(Require.NotNegative(totalN.Value, nameof(totalN)) * UnionizedFraction(water, pH));

    /// <summary>An amount given as N, written as NH3: x 17.031 / 14.007.</summary>
    /// <param name="asN">Ammonia as N, mg/L; 0 or more, throws otherwise.</param>
    public static MilligramsPerLitre AsNH3(MilligramsPerLitre asN) => new(Require.NotNegative(asN.Value, nameof(asN)) * NH3PerN);

    /// <summary>The total ammonia-N whose unionised part is just <paramref name="limit"/>: limit / fraction, mg/L.</summary>
    /// <param name="limit">Unionised ammonia as NH3-N, mg/L; 0 or more, throws otherwise.</param>
    /// <param name="pH">pH of the water.</param>
    /// <param name="water">Water temperature, °C.</param>
    public static MilligramsPerLitre TotalNForUnionized(MilligramsPerLitre limit, double pH, Celsius water) =>
        new(Require.NotNegative(limit.Value, nameof(limit)) / UnionizedFraction(water, pH));

    /// <summary>
    /// The long-term (30-day mean) criterion of total ammonia-N, mg/L: 0.8876 (0.0278 / (1 + 10^(7.688 - pH)) +
    /// 1.1994 / (1 + 10^(pH - 7.688))) x 2.126 x 10^(0.028 (20 - max(T, 7))). The highest 4-day mean is 2.5 times as much.
    /// Documented for pH 6.5-9 and 0-30 °C; throws outside 0-40 °C and pH 0-14. Source: US EPA 2013 (EPA 822-R-18-002);
    /// formula from memory, checked on the criterion's printed value at pH 7 and 20 °C.
    /// </summary>
    /// <param name="pH">pH of the water.</param>
    /// <param name="water">Water temperature, °C.</param>
    public static MilligramsPerLitre LongTermCriterionTotalN(double pH, Celsius water)
    {
        Require.Within(pH, 0, 14, nameof(pH));
        Require.Within(water.Degrees, 0, 40, nameof(water));
        var acid = 0.0278 / (1 + Math.Pow(10, 7.688 - pH));
        var alkaline = 1.1994 / (1 + Math.Pow(10, pH - 7.688));
        return new(0.8876 * (acid + alkaline) * 2.126 * Math.Pow(10, 0.028 * (20 - Math.Max(water.Degrees, 7))));
    }
}
