namespace Tankside.Science.Units;

/// <summary>A volume of water in litres (L). One US gallon is 3.785411784 L, exact by definition.</summary>
/// <param name="Value">Volume, L. Functions that take it refuse zero, negative and not-a-number.</param>
public readonly record struct Litres(double Value)
{
    /// <summary>Litres in a US liquid gallon, exact by definition (231 cubic inches of 2.54 cm).</summary>
    public const double PerUsGallon = 3.785411784;

    /// <summary>A volume given in US liquid gallons.</summary>
    /// <param name="gallons">Volume, US gal.</param>
    public static Litres FromUsGallons(double gallons) => new(gallons * PerUsGallon);
}

/// <summary>A concentration in milligrams per litre of water (mg/L). What the milligrams are of, each function says.</summary>
/// <param name="Value">Concentration, mg/L.</param>
public readonly record struct MilligramsPerLitre(double Value);

/// <summary>An absolute pressure in kilopascals (kPa). One atmosphere is 101.325 kPa, exact by definition.</summary>
/// <param name="Value">Pressure, kPa, absolute (station pressure, not reduced to sea level).</param>
public readonly record struct Kilopascals(double Value)
{
    /// <summary>One standard atmosphere, kPa. Exact by definition.</summary>
    public const double PerAtmosphere = 101.325;
}

/// <summary>
/// A range that holds the true value four times in five (80%), with its middle. The middle is the median, so it need not
/// lie halfway.
/// </summary>
/// <param name="Low">The value that one in ten lies under.</param>
/// <param name="Mid">The value that half lie under.</param>
/// <param name="High">The value that nine in ten lie under.</param>
public readonly record struct Band(double Low, double Mid, double High);
