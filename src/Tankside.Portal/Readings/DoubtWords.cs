using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Readings;

/// <summary>The question that goes back with a doubtful temperature.</summary>
public static class DoubtWords
{
    /// <param name="typed">As it was typed or sent.</param>
    /// <param name="unit">The scale it came on.</param>
    /// <param name="understood">The likeliest meaning, °C.</param>
    /// <param name="understoodUnit">The scale of that meaning.</param>
    /// <param name="reader">Whom it is said to.</param>
    public static string Question(Doubt doubt, string typed, TemperatureUnit unit, double understood, TemperatureUnit understoodUnit, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        var meant = $"{Number(WaterTemperature.FromC(understood, understoodUnit))} {Scale(understoodUnit)}";
        return doubt switch
        {
            Doubt.OtherScale => say.Of("{0} {1} does not fit a cold tank. Was it {2}?", typed, Scale(unit), meant),
            Doubt.BetweenScales => say.Of("{0} {1} lies between the scales: too warm for °C, too cold for °F. What does the thermometer say, and on which scale?", typed, Scale(unit)),
            Doubt.SlippedDigit => say.Of("{0} {1} looks like a slip of a digit or a point. Was it {2}?", typed, Scale(unit), meant),
            Doubt.ImpossibleJump => say.Of("{0} {1} is a bigger change than a tank can make since its last reading. Is it right?", typed, Scale(unit)),
            Doubt.Unusual => say.Of("{0} {1} does not go with the other answers. Is it right?", typed, Scale(unit)),
        };
    }

    public static string Scale(TemperatureUnit unit) => unit == TemperatureUnit.F ? "°F" : "°C";

    private static string Number(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
}
