using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Science.Heat;

namespace Tankside.Portal.Releases;

/// <summary>A water temperature among the fields of a form.</summary>
internal static class TypedWaterField
{
    /// <summary>A water temperature that may be left out; a number that cannot be meant on this scale is told, never changed.</summary>
    public static double? WaterC(this TypedFields typedFields, string field, string? typed, TemperatureUnit unit)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            return null;
        }

        if (!WaterTemperature.TryRead(typed, out var value, out var written))
        {
            typedFields.Refuse(field, typedFields.Say.Of("“{0}” is not a temperature. Type a number, such as {1}.", typed.Trim(), unit == TemperatureUnit.F ? "50" : "10"));
            return null;
        }

        var scale = written ?? unit;
        if (WaterTemperature.Judge(value, scale, default, new TankHabits(null, null, 100, Jacket.None, 20)) is WaterVerdict.Believed(var celsius))
        {
            return celsius;
        }

        typedFields.Refuse(field, typedFields.Say.Of("Water of {0} °{1} is not likely here. Look at the number and at the scale, °F or °C.", value.ToString("0.##", CultureInfo.InvariantCulture), scale));
        return null;
    }
}
