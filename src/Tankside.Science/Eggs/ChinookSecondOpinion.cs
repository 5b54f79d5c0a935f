using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>
/// Independent chinook salmon rules, to hold beside the Beacham and Murray curves. None throws; each says its range.
/// </summary>
public static class ChinookSecondOpinion
{
    /// <summary>
    /// The hatch curve log10 D = 3.9166 - 1.8126 log10(T + 6), about 2-15 °C. Source: Crisp 1981, Freshwater Biology 11:361-368;
    /// from memory.
    /// </summary>
    public static StageModel Hatch { get; } = CrispCurves.ChinookHatch();

    /// <summary>
    /// Days from fertilisation to ponding: exp(5.99 - 0.15 T). Means of 17 British Columbia hatcheries, so it holds hatchery
    /// practice as well as biology; no range was printed, and it parts from the emergence curve at 12 °C (66 against 76 days).
    /// Source: Rombough 1985, Can. J. Fish. Aquat. Sci. 42:287-291; abstract seen. Any temperature is answered.
    /// </summary>
    /// <param name="water">Mean water temperature, °C.</param>
    public static double PondingDays(Celsius water) => Math.Exp(5.99 - (0.15 * water.Degrees));

    /// <summary>
    /// Days from fertilisation to the alevin's greatest wet weight: exp(5.88 - 0.152 T + 0.000513 W). Range 5-12.5 °C and eggs
    /// of 163-437 mg; answered outside without a mark. Source: Rombough 1985; abstract seen.
    /// </summary>
    /// <param name="water">Mean water temperature, °C.</param>
    /// <param name="eggMilligrams">Initial egg weight W, mg.</param>
    public static double GreatestAlevinWeightDays(Celsius water, double eggMilligrams) =>
        Math.Exp(5.88 - (0.152 * water.Degrees) + (0.000513 * eggMilligrams));

    /// <summary>
    /// The thermal units between which first food should be offered: from 905 °C-days to 1201.1 - 20.3 T. Range 6-12 °C (the
    /// abstract has the window nearly closed at 12 °C; the printed line still leaves 52 °C-days there). Answered outside
    /// without a mark. Source: Heming, McInerney and Alderdice 1982, Can. J. Fish. Aquat. Sci. 39:1554-1562; abstract seen.
    /// </summary>
    /// <param name="water">Mean water temperature, °C.</param>
    public static (ThermalUnits From, ThermalUnits To) FirstFeedingWindow(Celsius water) =>
        (new ThermalUnits(905), new ThermalUnits(1201.1 - (20.3 * water.Degrees)));
}
