using Tankside.Science.Units;

namespace Tankside.Science.Water;

/// <summary>Neutralising chlorine and chloramine, as mass ratios. Chlorine is counted as Cl2, free or combined.</summary>
public static class Chlorine
{
    /// <summary>
    /// Milligrams of sodium thiosulfate pentahydrate per milligram of Cl2: two moles to one near pH 7 (tetrathionate route),
    /// 2 x 248.18 / 70.906 = 7.0. Source: a maker's support page seen; the handbooks' 7:1 is the same.
    /// </summary>
    public const double ThiosulfatePentahydratePerChlorine = 7.0;

    /// <summary>Milligrams of anhydrous sodium thiosulfate per milligram of Cl2: 2 x 158.11 / 70.906 = 4.46. Derived.</summary>
    public const double ThiosulfateAnhydrousPerChlorine = 2 * 158.11 / 70.906;

    /// <summary>
    /// The least that could do, milligrams of pentahydrate per milligram of Cl2: a quarter mole to one, oxidised all the way to
    /// sulfate, 0.875. Derived stoichiometry; never dose at this minimum.
    /// </summary>
    public const double ThiosulfatePentahydrateMinimum = 248.18 / (4 * 70.906);

    /// <summary>Milligrams of ammonia-N set free per milligram of Cl2 when monochloramine is neutralised: 14.007 / 70.906 =
    /// 0.1975. Derived stoichiometry of NH2Cl.</summary>
    public const double AmmoniaNPerChlorine = 14.007 / 70.906;

    /// <summary>
    /// Monochloramine that kills half of the test animals in a time, micrograms per litre: 7244 t^-0.4525. The range of the tests
    /// was not seen; checked at 1 hour to 10 days and answered for any positive time. Source: Farrell and others 2001/2002;
    /// equation seen second-hand, the paper not.
    /// </summary>
    /// <param name="minutes">Exposure t, minutes; positive, throws otherwise.</param>
    public static double MonochloramineHalfLethal(double minutes) =>
        7244 * Math.Pow(Require.Positive(minutes, nameof(minutes)), -0.4525);
}
