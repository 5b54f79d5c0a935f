using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Releases;

/// <summary>Numbers as the account's pages write them.</summary>
public static class Figures
{
    /// <summary>9412 as "9,412"; a negative number with a real minus sign.</summary>
    public static string Of(int count) => count < 0
        ? "−" + Math.Abs((long)count).ToString("N0", CultureInfo.InvariantCulture)
        : count.ToString("N0", CultureInfo.InvariantCulture);

    /// <summary>"1 fish", "3 fish", "1 egg", "3 eggs".</summary>
    public static string Of(int count, string one, string several) => $"{Of(count)} {(count == 1 ? one : several)}";

    public static string Percent(double? percent) => percent is { } value ? value.ToString("0.0", CultureInfo.InvariantCulture) + " %" : "not known yet";

    public static string Temperature(double? celsius, TemperatureUnit unit) => celsius is { } value
        ? WaterTemperature.FromC(value, unit).ToString("0.#", CultureInfo.InvariantCulture) + (unit == TemperatureUnit.F ? " °F" : " °C")
        : "";
}
