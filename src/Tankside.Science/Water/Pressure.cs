using Tankside.Science.Units;

namespace Tankside.Science.Water;

/// <summary>Air pressure over the water.</summary>
public static class Pressure
{
    /// <summary>
    /// Standard pressure at an elevation: 101.325 (1 - 2.25577e-5 h)^5.25588 kPa. Weather moves the true value by some 3% either
    /// way. Range -500 to 11,000 m; throws outside. Source: ISO 2533 standard atmosphere (from memory; checked on a printed
    /// altitude table).
    /// </summary>
    /// <param name="metres">Elevation above sea level, m.</param>
    public static Kilopascals AtElevation(double metres)
    {
        Require.Within(metres, -500, 11_000, nameof(metres));
        return new(Kilopascals.PerAtmosphere * Math.Pow(1 - (2.25577e-5 * metres), 5.25588));
    }

    /// <summary>
    /// A pressure in hectopascals (millibars): / 10, exact. It must be the pressure at the place, not the weather report's value
    /// reduced to sea level. Throws unless positive and finite.
    /// </summary>
    /// <param name="hectopascals">Absolute pressure, hPa.</param>
    public static Kilopascals FromHectopascals(double hectopascals) =>
        new(Require.Positive(hectopascals, nameof(hectopascals)) / 10);

    /// <summary>A pressure in millimetres of mercury: x 101.325 / 760, exact by definition of the torr. Throws unless positive
    /// and finite.</summary>
    /// <param name="millimetres">Absolute pressure, mmHg.</param>
    public static Kilopascals FromMillimetresOfMercury(double millimetres) =>
        new(Require.Positive(millimetres, nameof(millimetres)) * Kilopascals.PerAtmosphere / 760);
}
