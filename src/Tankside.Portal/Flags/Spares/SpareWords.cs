using System.Globalization;
using Tankside.Portal.Kit;

namespace Tankside.Portal.Flags.Spares;

/// <summary>Spares in words.</summary>
public static class SpareWords
{
    /// <summary>"spare chiller 12 min away", or "spare chiller at Cedar Bend, way not known".</summary>
    public static string Nearest(SpareShown spare)
    {
        var name = $"{(spare.Offer.IsOurs ? "reserved" : "spare")} {KitWords.Of(spare.Offer.Item.Kind)}";
        return spare.Offer.Minutes is { } minutes ? $"{name} {Minutes(minutes)} away" : $"{name} at {spare.Where}";
    }

    public static string Minutes(double minutes) => minutes < 90
        ? $"{Math.Max(1, Math.Round(minutes)).ToString("0", CultureInfo.InvariantCulture)} min"
        : $"{(minutes / 60).ToString("0.#", CultureInfo.InvariantCulture)} h";
}
