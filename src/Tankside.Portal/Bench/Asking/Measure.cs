using Tankside.Science.Units;

namespace Tankside.Portal.Bench.Asking;

/// <summary>What a number measures, where pages let people choose the unit. The API always takes °C, litres and metres.</summary>
public enum Measure
{
    Plain,
    Temperature,
    Volume,
    Height,
}

/// <summary>A unit that a page offers.</summary>
/// <param name="Code">Its value in the address.</param>
/// <param name="Symbol">As written after a number.</param>
/// <param name="ToApi">From this unit to the API's.</param>
/// <param name="FromApi">From the API's unit to this one.</param>
public sealed record PageUnit(string Code, string Symbol, Func<double, double> ToApi, Func<double, double> FromApi);

/// <summary>The units that pages offer; the first of each is taken when none is chosen.</summary>
public static class PageUnits
{
    private const double MetresPerFoot = 0.3048;

    public static IReadOnlyList<PageUnit> Temperature { get; } =
    [
        new("F", "°F", f => Celsius.FromFahrenheit(f).Degrees, c => new Celsius(c).Fahrenheit),
        new("C", "°C", c => c, c => c),
    ];

    public static IReadOnlyList<PageUnit> Volume { get; } =
    [
        new("gal", "US gallons", g => Litres.FromUsGallons(g).Value, l => l / Litres.PerUsGallon),
        new("L", "litres", l => l, l => l),
    ];

    public static IReadOnlyList<PageUnit> Height { get; } =
    [
        new("ft", "ft", feet => feet * MetresPerFoot, metres => metres / MetresPerFoot),
        new("m", "m", metres => metres, metres => metres),
    ];

    /// <summary>The parameter in the page's address that holds the choice, and what can be chosen.</summary>
    public static (string Parameter, IReadOnlyList<PageUnit> Units) Of(Measure measure) => measure switch
    {
        Measure.Temperature => ("unit", Temperature),
        Measure.Volume => ("volumeUnit", Volume),
        Measure.Height => ("elevationUnit", Height),
        Measure.Plain => ("", []),
    };
}
