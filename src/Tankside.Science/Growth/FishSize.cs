using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Science.Growth;

/// <summary>Mean length and weight of young fish.</summary>
/// <param name="LengthCm">Total length, cm.</param>
/// <param name="Grams">Weight, g.</param>
public readonly record struct FishSize(double LengthCm, double Grams)
{
    /// <summary>Centimetres of an inch.</summary>
    public const double CmPerInch = 2.54;

    /// <summary>Total length, inches.</summary>
    public double LengthIn => LengthCm / CmPerInch;

    /// <summary>Fish that weigh a gram together; hatcheries count so.</summary>
    public double NumberPerGram => 1 / Grams;
}

/// <summary>Weight over the cube of length, by species.</summary>
/// <remarks>
/// Hatchery handbooks list it as C, pounds per cubic inch: rainbow, brook and brown trout 4055e-7, coho 3737e-7, cutthroat 3559e-7,
/// steelhead 3405e-7, chinook 2959e-7, lake trout 2723e-7 (Piper and others 1982, from memory; the trout's is implied by the chart of
/// Leitritz and Lewis 1980, 3934-4194e-7, seen). For the others nothing was found; the coho's is borrowed. Fry are slighter than that:
/// measure your own fish where it matters.
/// </remarks>
public static class ConditionFactor
{
    /// <summary>g/cm³ of one pound per cubic inch.</summary>
    public const double GramsPerCm3 = 453.59237 / (FishSize.CmPerInch * FishSize.CmPerInch * FishSize.CmPerInch);

    /// <summary>The factor, g/cm³, and whether another species' was borrowed.</summary>
    /// <param name="species">The species.</param>
    public static (double GramsPerCm3, bool Borrowed) Of(Species species) => species switch
    {
        Species.RainbowTrout or Species.BrookTrout or Species.BrownTrout => (4055e-7 * GramsPerCm3, false),
        Species.CohoSalmon => (3737e-7 * GramsPerCm3, false),
        Species.CutthroatTrout => (3559e-7 * GramsPerCm3, false),
        Species.Steelhead => (3405e-7 * GramsPerCm3, false),
        Species.ChinookSalmon => (2959e-7 * GramsPerCm3, false),
        Species.LakeTrout => (2723e-7 * GramsPerCm3, false),
        _ => (3737e-7 * GramsPerCm3, true),
    };

    /// <summary>A fish of this length in ordinary condition.</summary>
    /// <param name="species">The species.</param>
    /// <param name="lengthCm">Total length, cm.</param>
    public static FishSize SizeAt(Species species, double lengthCm) => new(lengthCm, Of(species).GramsPerCm3 * Math.Pow(lengthCm, 3));
}

/// <summary>Growth in length by warmth, well-fed fish.</summary>
/// <remarks>
/// Monthly temperature units for a centimetre, °C-months of 30.4 days: rainbow 7.1 (7-19 °C; 5.8 at 13 °C), brook 7.2 (7-19 °C; 6.1 at
/// 10-16 °C), lake trout 5.4 (4-16 °C), steelhead 10.9 (4-19 °C; 8.5 at 13 °C): Dwyer and others, as tabled by handbooks (document seen).
/// For the others nothing was found; the rainbow's is borrowed.
/// </remarks>
public static class LengthGrowth
{
    /// <summary>Length at swim-up, cm (common practice: about an inch; no source).</summary>
    public const double SwimUpCm = 2.5;

    /// <summary>Days of a month in the tables.</summary>
    private const double MonthDays = 30.4;

    /// <summary>Share of well-fed growth that a class's fish may come down to (judgement: fed little, fasted over weekends).</summary>
    private const double Underfed = 0.5;

    /// <summary>°C-months for a centimetre over the whole range and, where tabled, at the best temperature.</summary>
    /// <param name="species">The species.</param>
    public static (double Usual, double Best, bool Borrowed) MonthsPerCm(Species species) => species switch
    {
        Species.RainbowTrout => (7.1, 5.8, false),
        Species.BrookTrout => (7.2, 6.1, false),
        Species.LakeTrout => (5.4, 5.4, false),
        Species.Steelhead => (10.9, 8.5, false),
        _ => (7.1, 5.8, true),
    };

    /// <summary>Length after some warmth: likely, and between a tank fed little and fish at their best.</summary>
    /// <param name="species">The species.</param>
    /// <param name="celsiusDays">Warmth since swim-up, °C-days above 0 °C; 0 or more.</param>
    public static (double Cm, double LowCm, double HighCm) After(Species species, double celsiusDays)
    {
        Require.NotNegative(celsiusDays, nameof(celsiusDays));
        var (usual, best, _) = MonthsPerCm(species);
        double Grown(double monthsPerCm) => celsiusDays / MonthDays / monthsPerCm;
        return (SwimUpCm + Grown(usual), SwimUpCm + (Underfed * Grown(usual)), SwimUpCm + Grown(best));
    }

    /// <summary>Growth of a day, cm.</summary>
    /// <param name="species">The species.</param>
    /// <param name="waterC">Mean water temperature, °C.</param>
    public static double CmADay(Species species, double waterC) => Math.Max(0, waterC) / MonthDays / MonthsPerCm(species).Usual;
}
