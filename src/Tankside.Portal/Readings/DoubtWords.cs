using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Readings;

/// <summary>The question that goes back with a doubtful temperature.</summary>
public static class DoubtWords
{
    /// <param name="typed">As it was typed or sent.</param>
    /// <param name="unit">The scale it came on.</param>
    /// <param name="understood">The likeliest meaning, °C.</param>
    /// <param name="understoodUnit">The scale of that meaning.</param>
    public static string Question(Doubt doubt, string typed, TemperatureUnit unit, double understood, TemperatureUnit understoodUnit)
    {
        var meant = $"{Number(WaterTemperature.FromC(understood, understoodUnit))} {Scale(understoodUnit)}";
        return doubt switch
        {
            Doubt.OtherScale => $"{typed} {Scale(unit)} does not fit a cold tank. Was it {meant}?",
            Doubt.BetweenScales => $"{typed} {Scale(unit)} lies between the scales: too warm for °C, too cold for °F. What does the thermometer say, and on which scale?",
            Doubt.SlippedDigit => $"{typed} {Scale(unit)} looks like a slip of a digit or a point. Was it {meant}?",
            Doubt.ImpossibleJump => $"{typed} {Scale(unit)} is a bigger change than a tank can make since its last reading. Is it right?",
            Doubt.Unusual => $"{typed} {Scale(unit)} does not go with the other answers. Is it right?",
        };
    }

    public static string Scale(TemperatureUnit unit) => unit == TemperatureUnit.F ? "°F" : "°C";

    private static string Number(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
}
