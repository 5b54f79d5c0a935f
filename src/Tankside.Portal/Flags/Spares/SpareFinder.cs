using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Places;
using Tankside.Science.Units;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Spares;

/// <summary>Where a spare lies and for which tank it could serve, in words of the school's name.</summary>
public sealed record SpareShown(SpareOffer Offer, string Where);

/// <summary>The programme's spares, read once for a whole round.</summary>
public sealed class SpareFinder
{
    private readonly List<KitItem> kit;
    private readonly Dictionary<Guid, string> schools;

    private SpareFinder(List<KitItem> kit, Dictionary<Guid, string> schools) => (this.kit, this.schools) = (kit, schools);

    public static async Task<SpareFinder> LoadAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel)
    {
        var kit = await db.KitItems.AsNoTracking()
            .Where(k => k.ProgrammeId == programmeId && k.Condition == KitCondition.Working && k.InTankId == null).ToListAsync(cancel);
        var at = kit.Select(k => k.SchoolId).OfType<Guid>().Distinct().ToList();
        var schools = await db.Schools.AsNoTracking().Where(s => at.Contains(s.Id)).ToListAsync(cancel);
        foreach (var item in kit.Where(k => k.Latitude is null && k.SchoolId is not null))
        {
            // It lies at a school: the school's place is its place.
            var school = schools.Single(s => s.Id == item.SchoolId);
            (item.Latitude, item.Longitude) = (school.Latitude, school.Longitude);
        }

        return new SpareFinder(kit, schools.ToDictionary(s => s.Id, s => s.Name));
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
        return [.. NearestSpares.For(need, kit, new Driving(limits[Limits.RoadFactor], limits[Limits.KmAnHour])).Select(o => new SpareShown(o, Where(o.Item)))];
    }

    private string Where(KitItem item)
    {
        string?[] parts = [item.SchoolId is { } id ? schools[id] : null, item.Place, item.Holder];
        return string.Join(", ", parts.Where(p => !string.IsNullOrWhiteSpace(p)));
    }
}
