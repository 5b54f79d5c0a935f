using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Steering;

/// <summary>Where a chiller's dial stands, as somebody typed it.</summary>
public static class DialRead
{
    /// <summary>No aquarium chiller goes colder, none that holds fish is set warmer, °C (common practice, no source).</summary>
    private const double ColdestC = 1, WarmestC = 21;

    /// <param name="usual">The scale where none is typed.</param>
    /// <returns>°C, or what is wrong with it.</returns>
    public static (double? Celsius, string? Wrong) From(string? typed, TemperatureUnit usual, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        if (!WaterTemperature.TryRead(typed, out var value, out var unit))
        {
            return (null, say["Type the temperature on the dial as a number, for example 52. The set-point was not changed."]);
        }

        var c = WaterTemperature.ToC(value, unit ?? usual);
        return c is >= ColdestC and <= WarmestC
            ? (c, null)
            : (null, say.Of("A chiller's dial goes from {0} to {1} °C (34 to 70 °F); {2} °{3} is outside. The set-point was not changed.", ColdestC, WarmestC, value, unit ?? usual));
    }
}
