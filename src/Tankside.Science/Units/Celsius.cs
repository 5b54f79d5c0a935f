namespace Tankside.Science.Units;

/// <summary>
/// A temperature in degrees Celsius (°C). There is no implicit conversion: a bare number never becomes a temperature by accident.
/// </summary>
/// <remarks>
/// °F = 1.8 °C + 32, exact by definition of the two scales. Any value may be held; the functions that take a temperature
/// state their own range. Not-a-number compares below every number.
/// </remarks>
/// <param name="Degrees">Temperature, °C.</param>
public readonly record struct Celsius(double Degrees) : IComparable<Celsius>
{
    /// <summary>The same temperature, °F: 1.8 °C + 32. Exact by definition.</summary>
    public double Fahrenheit => (Degrees * 1.8) + 32;

    /// <summary>A temperature given in °F: (°F - 32) / 1.8. Exact by definition; any value.</summary>
    /// <param name="f">Temperature, °F.</param>
    public static Celsius FromFahrenheit(double f) => new((f - 32) / 1.8);

    /// <summary>Orders by warmth, colder first.</summary>
    /// <param name="other">The temperature to compare with, °C.</param>
    public int CompareTo(Celsius other) => Degrees.CompareTo(other.Degrees);

    /// <summary>Whether <paramref name="left"/> is colder.</summary>
    public static bool operator <(Celsius left, Celsius right) => left.Degrees < right.Degrees;

    /// <summary>Whether <paramref name="left"/> is warmer.</summary>
    public static bool operator >(Celsius left, Celsius right) => left.Degrees > right.Degrees;

    /// <summary>Whether <paramref name="left"/> is colder or the same.</summary>
    public static bool operator <=(Celsius left, Celsius right) => left.Degrees <= right.Degrees;

    /// <summary>Whether <paramref name="left"/> is warmer or the same.</summary>
    public static bool operator >=(Celsius left, Celsius right) => left.Degrees >= right.Degrees;
}
