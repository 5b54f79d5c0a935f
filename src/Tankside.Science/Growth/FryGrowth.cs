using Tankside.Science.Units;

namespace Tankside.Science.Growth;

/// <summary>How heavy fed fry are by the warmth they have had since swim-up: length grows with warmth, weight with the cube of length.</summary>
public static class FryGrowth
{
    /// <summary>Length at swim-up, cm (common practice: about an inch; no source).</summary>
    private const double SwimUpCm = 2.5;

    /// <summary>Warmth for a centimetre, °C-days: 7.1 °C-months of 30.4 days, rainbow trout at 7-19 °C (Dwyer); brook 7.2, lake trout 5.4.</summary>
    private const double CelsiusDaysPerCm = 7.1 * 30.4;

    /// <summary>Weight over the cube of length, g/cm³: a fish in ordinary condition (common practice).</summary>
    private const double Condition = 0.010;

    /// <summary>Mean weight, g: 0.010 (2.5 + D / 215.8)³. Well-fed fish; a starved tank is lighter. Rises from 0.16 g at swim-up.</summary>
    /// <param name="celsiusDays">Warmth since swim-up, °C-days above 0 °C; 0 or more.</param>
    public static double GramsAfter(double celsiusDays)
    {
        Require.NotNegative(celsiusDays, nameof(celsiusDays));
        return Condition * Math.Pow(SwimUpCm + (celsiusDays / CelsiusDaysPerCm), 3);
    }
}
