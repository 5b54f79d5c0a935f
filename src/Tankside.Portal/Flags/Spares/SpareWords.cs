using System.Globalization;
using Tankside.Hatchery.Kit;

namespace Tankside.Portal.Flags.Spares;

/// <summary>Spares in words.</summary>
public static class SpareWords
{
    public static string Of(KitKind kind) => kind switch
    {
        KitKind.Chiller => "chiller",
        KitKind.Pump => "pump",
        KitKind.AirPump => "air pump",
        KitKind.BatteryAir => "battery air pump",
        KitKind.Filter => "filter",
        KitKind.Thermometer => "thermometer",
        KitKind.Tank => "tank",
    };

    /// <summary>"spare chiller 12 min away", or "spare chiller at Cedar Bend, way not known".</summary>
    public static string Nearest(SpareShown spare)
    {
        var name = $"{(spare.Offer.IsOurs ? "reserved" : "spare")} {Of(spare.Offer.Item.Kind)}";
        return spare.Offer.Minutes is { } minutes ? $"{name} {Minutes(minutes)} away" : $"{name} at {spare.Where}";
    }

    public static string Minutes(double minutes) => minutes < 90
        ? $"{Math.Max(1, Math.Round(minutes)).ToString("0", CultureInfo.InvariantCulture)} min"
        : $"{(minutes / 60).ToString("0.#", CultureInfo.InvariantCulture)} h";
}
