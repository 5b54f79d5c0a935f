using System.Globalization;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Numbers inside first aid: both scales, both volumes, a decimal point in English and a decimal comma in Spanish.</summary>
public static class AidFigures
{
    private static readonly NumberFormatInfo Comma = new() { NumberDecimalSeparator = ",", NumberGroupSeparator = "." };

    public static Bilingual Number(double value, string format) =>
        new(value.ToString(format, CultureInfo.InvariantCulture), value.ToString(format, Comma));

    /// <summary>"50.9 °F (10.5 °C)".</summary>
    public static Bilingual Degrees(double celsius) => Join(Number((celsius * 1.8) + 32, "0.#"), "°F", Number(celsius, "0.#"), "°C");

    /// <summary>A difference: "2 °F (1.1 °C)".</summary>
    public static Bilingual Step(double celsius) => Join(Number(celsius * 1.8, "0"), "°F", Number(celsius, "0.#"), "°C");

    /// <summary>"208 L (55 gal)"; small amounts to a tenth.</summary>
    public static Bilingual Volume(double litres)
    {
        var format = litres < 30 ? "0.#" : "0";
        return Join(Number(litres, format), "L", Number(litres / Litres.PerUsGallon, format), "gal");
    }

    /// <summary>"10%" and, with a space, "10 %".</summary>
    public static Bilingual Percent(double share)
    {
        var number = Number(100 * share, "0");
        return new($"{number.En}%", $"{number.Es} %");
    }

    private static Bilingual Join(Bilingual first, string unit, Bilingual second, string otherUnit) => new(
        $"{first.En} {unit} ({second.En} {otherUnit})",
        $"{first.Es} {unit} ({second.Es} {otherUnit})");
}
