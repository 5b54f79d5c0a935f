using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings;

/// <summary>What is known of a tank before the value at hand, so that slips can be told from news.</summary>
/// <param name="LastWaterC">Its last accepted water temperature, °C.</param>
/// <param name="LastAt">When that was.</param>
/// <param name="Litres">Water in the tank.</param>
/// <param name="Jacket">Foam or bare.</param>
/// <param name="RoomC">Room temperature, °C.</param>
public sealed record TankHabits(double? LastWaterC, DateTime? LastAt, double Litres, Jacket Jacket, double RoomC);

/// <summary>The judgement of one typed temperature.</summary>
public abstract record WaterVerdict
{
    /// <summary>Believed as it stands.</summary>
    public sealed record Believed(double Celsius) : WaterVerdict;

    /// <summary>Kept, but a person has to say. <paramref name="Understood"/> is the likeliest meaning, °C.</summary>
    public sealed record Doubted(Doubt Doubt, double AsTyped, double Understood, TemperatureUnit UnderstoodUnit) : WaterVerdict;

    /// <summary>No water can have this temperature, or it is not a number.</summary>
    public sealed record Refused(WaterRefusal Why) : WaterVerdict;
}

/// <summary>Why a typed temperature is not kept.</summary>
public enum WaterRefusal
{
    NotANumber,
    NotWater,
}

/// <summary>
/// Judges a typed water temperature. The scales hardly meet in a cold tank: 0 to 22 is Celsius, 32 to 80 Fahrenheit, and what lies
/// between is asked. A change that no tank can make is asked too.
/// </summary>
public static class WaterTemperature
{
    /// <summary>A number that a person types is shorter.</summary>
    public const int LongestTyped = 40;

    /// <summary>Beyond these, °C, it cannot be the water of a tank on any scale (common practice, no source).</summary>
    private const double ColdestC = -5, HottestC = 80;

    /// <summary>What two thermometers and a lid left open may add to a change, °C (common practice, no source).</summary>
    private const double Slack = 1.5;

    /// <summary>The fastest cooling that ice, a chiller and a water change together are credited with, °C an hour (no source).</summary>
    private const double FastestCooling = 6;

    /// <summary>Reads a number as people type it: "52", "52.5", "52,5", " 52 ", "52°", "52 F".</summary>
    public static bool TryRead(string? typed, out double value, out TemperatureUnit? unit)
    {
        value = double.NaN;
        unit = null;
        var text = (typed ?? "").Trim();
        if (text.Length > LongestTyped || text.Contains('\0', StringComparison.Ordinal))
        {
            return false; // .NET takes any number of noughts before a number, and of NULs behind it.
        }

        text = text.Replace("°", "", StringComparison.Ordinal).TrimEnd();
        if (text.EndsWith('F') || text.EndsWith('f'))
        {
            unit = TemperatureUnit.F;
        }
        else if (text.EndsWith('C') || text.EndsWith('c'))
        {
            unit = TemperatureUnit.C;
        }

        text = text.TrimEnd('F', 'f', 'C', 'c', ' ').Replace(',', '.');
        return double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);
    }

    /// <summary>Judges <paramref name="value"/> read on <paramref name="unit"/> at <paramref name="at"/>.</summary>
    public static WaterVerdict Judge(double value, TemperatureUnit unit, DateTime at, TankHabits habits)
    {
        var asTyped = ToC(value, unit);
        if (!double.IsFinite(value) || value < ColdestC || asTyped > HottestC)
        {
            return new WaterVerdict.Refused(WaterRefusal.NotWater);
        }

        var doubt = DoubtOf(value, unit);
        if (doubt is null && IsImpossibleJump(asTyped, at, habits))
        {
            doubt = Doubt.ImpossibleJump;
        }

        if (doubt is not { } why)
        {
            return new WaterVerdict.Believed(Round(asTyped));
        }

        var (likeliest, scale) = Likeliest(value, unit, habits);
        return new WaterVerdict.Doubted(why, Round(asTyped), Round(likeliest), scale);
    }

    private static Doubt? DoubtOf(double value, TemperatureUnit unit) => (unit, value) switch
    {
        (TemperatureUnit.C, < 0) => Doubt.SlippedDigit,
        (TemperatureUnit.C, < 22) => null,
        (TemperatureUnit.C, < 32) => Doubt.BetweenScales,
        (TemperatureUnit.C, _) => Doubt.OtherScale,
        (TemperatureUnit.F, < 0) => Doubt.SlippedDigit,
        (TemperatureUnit.F, < 22) => Doubt.OtherScale,
        (TemperatureUnit.F, < 32) => Doubt.BetweenScales,
        (TemperatureUnit.F, <= 80) => null,
        (TemperatureUnit.F, _) => Doubt.SlippedDigit,
        _ => throw new ArgumentOutOfRangeException(nameof(unit)),
    };

    /// <summary>True when the water would have had to warm faster than the fastest credible tank, or cool faster than ice can.</summary>
    public static bool IsImpossibleJump(double celsius, DateTime at, TankHabits habits)
    {
        if (habits.LastWaterC is not { } last || habits.LastAt is not { } lastAt || at <= lastAt)
        {
            return false;
        }

        var hours = (at - lastAt).TotalHours;
        var litres = new Litres(habits.Litres);
        var settles = Warming.SettlesAt(new Celsius(Math.Max(habits.RoomC, last)), litres, Jacket.None);
        var warmest = Warming.MostAfter(new Celsius(last), hours, settles, Warming.FastestCredibleTau(litres, habits.Jacket));
        return celsius > warmest.Degrees + Slack || celsius < last - (FastestCooling * hours) - Slack;
    }

    /// <summary>
    /// Of the ways the number may have been meant (either scale, point slipped either way) the one nearest to the tank's last
    /// temperature, or to 10 °C when there is none.
    /// </summary>
    private static (double Celsius, TemperatureUnit Unit) Likeliest(double value, TemperatureUnit unit, TankHabits habits)
    {
        var usual = habits.LastWaterC ?? 10;
        var other = unit == TemperatureUnit.C ? TemperatureUnit.F : TemperatureUnit.C;
        (double Celsius, TemperatureUnit Unit)[] meanings =
        [
            (ToC(value, unit), unit),
            (ToC(value, other), other),
            (ToC(value * 10, unit), unit),
            (ToC(value / 10, unit), unit),
            (ToC(value * 10, other), other),
            (ToC(value / 10, other), other),
        ];
        var credible = meanings.Where(m => m.Celsius is >= 0 and <= 22).ToList();
        return credible.Count == 0 ? meanings[0] : credible.MinBy(m => Math.Abs(m.Celsius - usual));
    }

    public static double ToC(double value, TemperatureUnit unit) =>
        unit == TemperatureUnit.F ? Celsius.FromFahrenheit(value).Degrees : value;

    public static double FromC(double celsius, TemperatureUnit unit) =>
        unit == TemperatureUnit.F ? new Celsius(celsius).Fahrenheit : celsius;

    /// <summary>Stored to a hundredth of a degree: finer than any thermometer here, coarse enough that both databases agree.</summary>
    private static double Round(double celsius) => Math.Round(celsius, 2, MidpointRounding.AwayFromZero);
}
