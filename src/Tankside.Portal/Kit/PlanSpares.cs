using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Science.Units;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>What is asked about spares of one kind.</summary>
/// <param name="FailuresASeason">Share of the pieces that fails in a season; null for the programme's setting, which is that of chillers.</param>
/// <param name="Area">Before a storm over this area; null before a season.</param>
/// <param name="Number">How many can be placed; null for as many as are needed.</param>
/// <param name="AtSchools">Every school with a position may hold one, not only the depots there are.</param>
public sealed record SpareQuestion(string? Area, int? Number, bool AtSchools, KitKind Kind = KitKind.Chiller, double? FailuresASeason = null);

/// <summary>A place that holds spares by the plan.</summary>
/// <param name="Spares">How many of them lie here.</param>
/// <param name="ReadyNow">Spares that lie here today.</param>
/// <param name="Tanks">Tanks to which this is the nearest.</param>
public sealed record PlannedSite(string Name, int Spares, int ReadyNow, int Tanks, double Fish, double MeanMinutes);

/// <summary>How many spares, where, and what that gives.</summary>
/// <param name="Tanks">Tanks that are thought of.</param>
/// <param name="NoPosition">Those among them whose school has no position; they count for the number, not for the place.</param>
/// <param name="Placing">Null where there is no site with a position.</param>
/// <param name="Today">The drives as the spares lie today; null when none lies at a place with a position.</param>
/// <param name="ByFish">False while no tank holds fish: then every tank weighs the same.</param>
public sealed record SparePlan(
    SpareCover Cover, KitSettings Settings, int Tanks, int NoPosition, int Number, int ReadyNow, SparePlacing? Placing, SparePlacing? Today,
    IReadOnlyList<PlannedSite> Sites, bool ByFish, IReadOnlyList<string> Areas);

/// <summary>Plans spares before a season, or before a storm over an area.</summary>
public sealed class PlanSpares(IDbContextFactory<HatcheryDb> databases, IFishAtRisk fish)
{
    public async Task<SparePlan> LoadAsync(CurrentUser user, SpareQuestion ask, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var own = await KitCards.SettingsAsync(db, user.ProgrammeId, cancel);
        var settings = own with { FailuresASeason = ask.FailuresASeason ?? own.FailuresASeason };
        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        var open = names.Tanks.Values.Where(t => t.Tank.ClosedAt is null).ToList();
        var tanks = open.Where(t => ask.Area is null || t.School.Area == ask.Area).ToList();
        var kit = await db.KitItems.AsNoTracking().Where(k => k.ProgrammeId == user.ProgrammeId && k.Kind == ask.Kind).ToListAsync(cancel);
        var ready = kit.Where(k => k.IsSpare).ToList();
        var depots = names.Depots.Values.Where(d => d.Depot.ClosedAt is null).ToList();
        var cover = ask.Area is null
            ? SpareCover.Season(tanks.Count, settings.FailuresASeason, settings.RepairWeeks, settings.SeasonWeeks, depots.Count, settings.Cover)
            : SpareCover.Storm(tanks.Count, settings.StormShare, 0, settings.Cover);
        var number = Math.Clamp(ask.Number ?? cover.Number, 0, 200);

        var (demand, byFish) = await DemandAsync(db, tanks, cancel);
        var sites = (ask.AtSchools ? SchoolSites(open) : DepotSites(depots)).ToList();
        var placing = SparePlaces.Choose(demand, [.. sites.Select(s => s.Site)], number, settings.Driving);
        var today = DepotSites(depots).Where(s => ready.Exists(k => k.DepotId == s.Site.Id)).Select(s => s.Site).ToList();
        return new SparePlan(
            cover, settings, tanks.Count, tanks.Count - demand.Count, number, ready.Count, placing, SparePlaces.Choose(demand, today, today.Count, settings.Driving),
            placing is null ? [] : Planned(placing, sites, demand, ready, number, settings.Driving), byFish,
            [.. open.Select(t => t.School.Area).Distinct().Order(StringComparer.Ordinal)]);
    }

    private async Task<(List<SpareDemand> Demand, bool ByFish)> DemandAsync(HatcheryDb db, List<TankOfKit> tanks, CancellationToken cancel)
    {
        var inTanks = await fish.InTanksAsync(db, [.. tanks.Select(t => t.Tank.Id)], cancel);
        var byFish = inTanks.Values.Any(f => f > 0);
        return (
            [.. tanks.Select(t => (t.Tank.Id, At: GeoPoint.Of(t.School.Latitude, t.School.Longitude))).Where(t => t.At is not null)
                .Select(t => new SpareDemand(t.Id, t.At!.Value, byFish ? inTanks[t.Id] : 1))],
            byFish);
    }

    private static IEnumerable<(SpareSite Site, string Name)> DepotSites(IEnumerable<ListedDepot> depots) =>
        depots.Where(d => d.At is not null).Select(d => (new SpareSite(d.Depot.Id, d.At!.Value), d.Depot.Name));

    private static IEnumerable<(SpareSite Site, string Name)> SchoolSites(IEnumerable<TankOfKit> tanks) =>
        tanks.Select(t => t.School).DistinctBy(s => s.Id).Select(s => (School: s, At: GeoPoint.Of(s.Latitude, s.Longitude))).Where(s => s.At is not null)
            .Select(s => (new SpareSite(s.School.Id, s.At!.Value), s.School.Name));

    private static List<PlannedSite> Planned(
        SparePlacing placing, List<(SpareSite Site, string Name)> sites, List<SpareDemand> demand, List<KitItem> ready, int number, Driving driving)
    {
        var served = demand.ToLookup(d => placing.Sites.MinBy(s => driving.Minutes(sites[s].Site.At, d.At)));
        var shares = SparePlaces.Shares([.. placing.Sites.Select(s => served[s].Sum(d => d.Weight))], number);
        return
        [
            .. placing.Sites.Select((s, i) => new PlannedSite(
                sites[s].Name, shares[i], ready.Count(k => k.DepotId == sites[s].Site.Id), served[s].Count(), served[s].Sum(d => d.Weight),
                served[s].Any() ? served[s].Average(d => driving.Minutes(sites[s].Site.At, d.At)) : 0))
                .OrderByDescending(s => s.Fish),
        ];
    }
}
