using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Kit;
using Tankside.Portal.Places;
using Tankside.Science.Units;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Spares;

/// <summary>Where a spare lies and for which tank it could serve, in words of the depot's name.</summary>
public sealed record SpareShown(SpareOffer Offer, string Where, string? Hours, string? Phone);

/// <summary>The programme's spares, read once for a whole round.</summary>
public sealed class SpareFinder
{
    private readonly List<KitAt> kit;
    private readonly Dictionary<Guid, ListedDepot> depots;

    private SpareFinder(List<KitItem> kit, Dictionary<Guid, ListedDepot> depots)
    {
        this.depots = depots;
        this.kit = [.. kit.Select(k => new KitAt(k, k.DepotId is { } depot ? depots[depot].At : null))];
    }

    public static async Task<SpareFinder> LoadAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel)
    {
        var kit = await db.KitItems.AsNoTracking()
            .Where(k => k.ProgrammeId == programmeId && k.Condition == KitCondition.Working && k.InTankId == null && k.WithPersonId == null).ToListAsync(cancel);
        return new SpareFinder(kit, (await Depots.LoadAsync(db, programmeId, cancel)).ToDictionary(d => d.Depot.Id));
    }

    /// <summary>What could be lent against these troubles, the nearest of the best kind first.</summary>
    public IReadOnlyList<SpareShown> For(TankPlace place, IEnumerable<FlagKind> troubles)
    {
        var kinds = SpareKinds.For(troubles);
        if (kinds.Count == 0)
        {
            return [];
        }

        var limits = place.Limits;
        var need = new SpareNeed(place.Tank.Id, kinds, place.Tank.Litres, GeoPoint.Of(place.School.Latitude, place.School.Longitude));
        return [.. NearestSpares.For(need, kit, new Driving(limits[Limits.RoadFactor], limits[Limits.KmAnHour])).Select(Shown)];
    }

    private SpareShown Shown(SpareOffer offer) => offer.Item.DepotId is { } id && depots[id] is var depot
        ? new SpareShown(offer, depot.Words, depot.Depot.Hours, depot.Phone)
        : new SpareShown(offer, "place not known", null, null);
}
