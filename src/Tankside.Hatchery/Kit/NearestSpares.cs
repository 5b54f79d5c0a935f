using Tankside.Science.Units;

namespace Tankside.Hatchery.Kit;

/// <summary>What is looked for.</summary>
/// <param name="Kinds">Kinds that would help, the best first.</param>
/// <param name="Litres">Water in the tank that it has to serve.</param>
/// <param name="At">Where the tank stands; null when nobody has said.</param>
public sealed record SpareNeed(Guid TankId, IReadOnlyList<KitKind> Kinds, double Litres, GeoPoint? At);

/// <summary>A piece of kit and where it lies; null when nobody has said.</summary>
public sealed record KitAt(KitItem Item, GeoPoint? At);

/// <summary>A spare that could be lent.</summary>
/// <param name="Minutes">Drive from where it lies to the tank; null when one of the two places is not known.</param>
/// <param name="IsOurs">It is reserved for this very tank already.</param>
public sealed record SpareOffer(KitItem Item, double? Minutes, bool IsOurs);

/// <summary>How long a road is beside the straight line, and how fast it is driven.</summary>
/// <param name="RoadFactor">Road kilometres for each along the great circle, at least 1.</param>
/// <param name="KmAnHour">Mean speed, above 0.</param>
public readonly record struct Driving(double RoadFactor, double KmAnHour)
{
    public double Minutes(GeoPoint from, GeoPoint to) => GreatCircle.Km(from, to) * RoadFactor / KmAnHour * 60;
}

/// <summary>Which spare is nearest, fits, works and is free. Needs no map.</summary>
public static class NearestSpares
{
    /// <summary>
    /// The one reserved for this tank first, then by kind as asked, then by drive time; those whose way is not known come last in their
    /// kind. One that is broken, in use, too small or promised to another tank is never among them.
    /// </summary>
    public static IReadOnlyList<SpareOffer> For(SpareNeed need, IEnumerable<KitAt> kit, Driving driving) =>
        [.. kit
            .Where(k => k.Item.IsSpare && need.Kinds.Contains(k.Item.Kind))
            .Where(k => k.Item.ReservedForTankId is null || k.Item.ReservedForTankId == need.TankId)
            .Where(k => k.Item.Fits(need.Litres))
            .Select(k => new SpareOffer(k.Item, Drive(need, k, driving), k.Item.ReservedForTankId == need.TankId))
            .OrderByDescending(o => o.IsOurs)
            .ThenBy(o => IndexOf(need.Kinds, o.Item.Kind))
            .ThenBy(o => o.Minutes ?? double.MaxValue)
            .ThenBy(o => o.Item.Serial, StringComparer.Ordinal)];

    private static double? Drive(SpareNeed need, KitAt item, Driving driving) =>
        need.At is { } to && item.At is { } from ? driving.Minutes(from, to) : null;

    private static int IndexOf(IReadOnlyList<KitKind> kinds, KitKind kind)
    {
        for (var i = 0; i < kinds.Count; i++)
        {
            if (kinds[i] == kind)
            {
                return i;
            }
        }

        return kinds.Count;
    }
}
