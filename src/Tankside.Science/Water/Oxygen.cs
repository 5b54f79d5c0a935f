using Tankside.Science.Units;

namespace Tankside.Science.Water;

/// <summary>Dissolved oxygen in fresh water.</summary>
public static class Oxygen
{
    /// <summary>
    /// Oxygen that fresh water holds under one atmosphere of moist air:
    /// ln C = -139.34411 + 1.575701e5/T - 6.642308e7/T² + 1.243800e10/T³ - 8.621949e11/T⁴, T in kelvin, C in mg/L.
    /// Range 0-40 °C; throws outside. Source: Benson and Krause 1984, Limnology and Oceanography 29:620-632, as in APHA Standard
    /// Methods 4500-O (coefficients from memory; checked on printed tables).
    /// </summary>
    /// <param name="water">Water temperature, °C.</param>
    public static MilligramsPerLitre SaturationAtOneAtmosphere(Celsius water)
    {
        var t = Kelvin(water);
        var logC = -139.34411 + (1.575701e5 / t) - (6.642308e7 / (t * t)) + (1.243800e10 / (t * t * t))
            - (8.621949e11 / (t * t * t * t));
        return new(Math.Exp(logC));
    }

    /// <summary>
    /// Oxygen that fresh water holds under moist air at a pressure: C P [(1 - Pwv/P)(1 - theta P)] / [(1 - Pwv)(1 - theta)],
    /// P in atmospheres, ln Pwv = 11.8571 - 3840.70/T - 216961/T² (T kelvin), theta = 0.000975 - 1.426e-5 t + 6.436e-8 t² (t °C).
    /// Range 0-40 °C; published for about 50-110 kPa, answered for 20-150 kPa; throws outside. Source: Benson and Krause 1984,
    /// APHA Standard Methods 4500-O (from memory; checked on an instrument table seen).
    /// </summary>
    /// <param name="water">Water temperature, °C.</param>
    /// <param name="pressure">Absolute air pressure at the place, kPa.</param>
    public static MilligramsPerLitre Saturation(Celsius water, Kilopascals pressure)
    {
        var kelvin = Kelvin(water);
        var p = Require.Within(pressure.Value, 20, 150, nameof(pressure)) / Kilopascals.PerAtmosphere;
        var vapour = Math.Exp(11.8571 - (3840.70 / kelvin) - (216961 / (kelvin * kelvin)));
        var t = water.Degrees;
        var theta = 0.000975 - (1.426e-5 * t) + (6.436e-8 * t * t);
        var factor = p * (1 - (vapour / p)) * (1 - (theta * p)) / ((1 - vapour) * (1 - theta));
        return new(SaturationAtOneAtmosphere(water).Value * factor);
    }

    /// <summary>
    /// A reading as a percentage of what the water would hold: 100 C / <see cref="Saturation"/>. Range as there.
    /// </summary>
    /// <param name="oxygen">Oxygen measured, mg/L.</param>
    /// <param name="water">Water temperature, °C.</param>
    /// <param name="pressure">Absolute air pressure at the place, kPa.</param>
    public static double PercentOfSaturation(MilligramsPerLitre oxygen, Celsius water, Kilopascals pressure) =>
        100 * oxygen.Value / Saturation(water, pressure).Value;

    /// <summary>
    /// Hours until still water falls to a limit, with everything given: V dC/dt = K A (Cs - C) - M. 0 when it is there already;
    /// null when the surface gives as much as is used before it gets there. Source: textbook mass balance of well-mixed water;
    /// a heap of eggs without flow uses up its own water far sooner.
    /// </summary>
    /// <param name="volume">Water volume V, L; positive.</param>
    /// <param name="surfaceM2">Open surface A, m²; 0 or more.</param>
    /// <param name="levels">Saturation Cs, start and limit, mg/L.</param>
    /// <param name="gasExchangeCmPerHour">Gas exchange K of still water, cm/h; 0 or more.</param>
    /// <param name="demandMgPerHour">Oxygen used, M, mg/h; 0 or more.</param>
    public static double? HoursUntil(
        Litres volume, double surfaceM2, OxygenLevels levels, double gasExchangeCmPerHour, double demandMgPerHour)
    {
        Require.Positive(volume.Value, nameof(volume));
        Require.NotNegative(surfaceM2, nameof(surfaceM2));
        Require.NotNegative(gasExchangeCmPerHour, nameof(gasExchangeCmPerHour));
        Require.NotNegative(demandMgPerHour, nameof(demandMgPerHour));
        return OxygenFall.Hours(volume.Value, surfaceM2 * gasExchangeCmPerHour * 10, levels, demandMgPerHour);
    }

    /// <summary>
    /// Hours until the limit when pump and air stop, as an 80% range over what is not known: gas exchange of still water
    /// (0.5-1.7 cm/h; the high end is Cole and Caraco 1998 at zero wind, second-hand copy) and the fish's demand (see
    /// <see cref="OxygenDemand"/>), both log-normal and independent. An end that is null is never reached.
    /// </summary>
    /// <param name="situation">Water, fish and limit.</param>
    public static HoursBand HoursUntil(OxygenSituation situation)
    {
        Require.Positive(situation.Volume.Value, nameof(situation));
        ArgumentOutOfRangeException.ThrowIfNegative(situation.Fish, nameof(situation));
        if (situation.SurfaceM2 is { } surface) Require.NotNegative(surface, nameof(situation));
        if (situation.Stage == FishStage.Fry) Require.Positive(situation.MeanGrams, nameof(situation));
        return OxygenFall.Band(situation);
    }

    private static double Kelvin(Celsius water) => Require.Within(water.Degrees, 0, 40, nameof(water)) + 273.15;
}
