using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags;

/// <summary>Temperatures and thermal units as adults' screens write them: the programme's scale first, the other in brackets.</summary>
public sealed class ScaleWords(TemperatureUnit first, Say? say = null)
{
    /// <summary>A number and its unit stay on one line.</summary>
    private const char Together = '\u00A0';

    private readonly TemperatureUnit second = first == TemperatureUnit.F ? TemperatureUnit.C : TemperatureUnit.F;

    /// <summary>The same scale first, said to another reader.</summary>
    public ScaleWords To(Say reader) => new(first, reader);

    private bool Spanish => say is { IsSpanish: true };

    /// <summary>"52.5 °F (11.4 °C)".</summary>
    public string Both(double celsius) => $"{One(celsius, first)} ({One(celsius, second)})";

    /// <summary>"39 to 54 °F (4 to 12 °C)".</summary>
    public string Span(double lowC, double highC) => $"{OneSpan(lowC, highC, first)} ({OneSpan(lowC, highC, second)})";

    /// <summary>"481 °F-days (267 °C-days)", both above freezing.</summary>
    public string Both(ThermalUnits units) => $"{Sum(units, first)} ({Sum(units, second)})";

    private string One(double celsius, TemperatureUnit unit) => $"{Number(celsius, unit)}{Together}{Sign(unit)}";

    private string OneSpan(double lowC, double highC, TemperatureUnit unit) => $"{Number(lowC, unit)} {(Spanish ? "a" : "to")} {Number(highC, unit)}{Together}{Sign(unit)}";

    private string Sum(ThermalUnits units, TemperatureUnit unit) =>
        $"{(unit == TemperatureUnit.F ? units.FahrenheitDays : units.CelsiusDays).ToString("#,0", CultureInfo.InvariantCulture)}{Together}{Sign(unit)}-{(Spanish ? "días" : "days")}";

    /// <summary>With a decimal comma in Spanish, as first aid writes it.</summary>
    private string Number(double celsius, TemperatureUnit unit) =>
        WaterTemperature.FromC(celsius, unit).ToString("0.#", CultureInfo.InvariantCulture).Replace('.', Spanish ? ',' : '.');

    private static string Sign(TemperatureUnit unit) => unit == TemperatureUnit.F ? "°F" : "°C";
}
