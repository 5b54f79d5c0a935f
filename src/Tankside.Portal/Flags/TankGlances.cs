using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Flags.Steering;
using Tankside.Portal.Places;
using Tankside.Portal.Releases;
using Tankside.Storage;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Flags;

/// <summary>A tank in short: what is in it, what it is doing, when it was last read, what is flagged.</summary>
/// <param name="Lot">Null before any eggs came; <paramref name="Development"/> then too.</param>
/// <param name="LastAt">Last reading that counts, UTC.</param>
/// <param name="LastWaterC">Last temperature that counts, °C; it may be older than <paramref name="LastAt"/>.</param>
/// <param name="Flags">Open ones, the most urgent first.</param>
public sealed record TankGlance(
    TankPlace Place, LotProfile? Lot, DevelopmentNow? Development, IReadOnlyList<TankDay> Days, int Fish,
    DateTime? LastAt, double? LastWaterC, IReadOnlyList<Flag> Flags)
{
    public string Code => Place.Tank.Code;

    /// <summary>The steps of the plan that its dial is turned by; null without a plan.</summary>
    public IReadOnlyList<SetPointStep>? Plan { get; init; }
}

/// <summary>
/// Loads tanks in short: a fixed number of queries however many there are, none of which reads through the raw readings of a tank. For the
/// whole record that the rules judge see <see cref="TankRecords"/>.
/// </summary>
public static class TankGlances
{
    /// <summary>In the order of the codes.</summary>
    public static async Task<IReadOnlyList<TankGlance>> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, DateTime now, CancellationToken cancel)
    {
        var places = await Surroundings.LoadAsync(db, tankIds, cancel, now);
        var fish = await FishInTanks.LoadAsync(db, tankIds, cancel);
        var lots = await LotsInTanks.LoadAsync(db, tankIds, places, cancel);
        var mates = await LotMates.LoadAsync(db, lots.Values, withLosses: false, cancel);
        var plans = await KeptPlans.LoadAsync(db, tankIds, cancel);
        var days = await DaysOfTanks.LoadAsync(db, tankIds, cancel);
        var last = await LastAsync(db, tankIds, cancel);
        var flags = (await db.Flags.AsNoTracking().Where(f => f.TankId != null && tankIds.Contains(f.TankId.Value) && f.State == FlagState.Open).ToListAsync(cancel))
            .ToLookup(f => f.TankId!.Value);

        return [.. places.All.OrderBy(p => p.Tank.Code, StringComparer.Ordinal).Select(place =>
        {
            var id = place.Tank.Id;
            var held = lots.GetValueOrDefault(id);
            var plan = plans.GetValueOrDefault(id)?.Course();
            var lot = held?.Profile;
            List<TankDay> own = [.. days.Of(id).Where(d => lot is null || d.Day >= lot.DeliveredOn)];
            var development = held is null
                ? null
                : TankDevelopment.On(place.Calendar.Clock.Day(now), held.Profile, own, place.Tank.SetPointC, mates.LearnedBy(held.LotId, id), plan);
            return new TankGlance(
                place, lot, development, own, fish.Of(id), last[id].At, last[id].WaterC,
                [.. flags[id].OrderByDescending(f => f.Urgency).ThenBy(f => f.Kind)])
            {
                Plan = plan,
            };
        })];
    }

    private sealed record LastReading(DateTime? At, double? WaterC);

    /// <summary>Each from the end of the tank's own index, however long its history.</summary>
    private static async Task<Dictionary<Guid, LastReading>> LastAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        var rows = await db.Tanks.AsNoTracking().Where(t => tankIds.Contains(t.Id)).Select(t => new
        {
            t.Id,
            At = db.Readings.Where(r => r.TankId == t.Id && r.State == ReadingState.Accepted && r.CorrectedBy == null)
                .OrderByDescending(r => r.At).Select(r => (DateTime?)r.At).FirstOrDefault(),
            WaterC = db.Readings.Where(r => r.TankId == t.Id && r.State == ReadingState.Accepted && r.CorrectedBy == null && r.Seen.WaterC != null)
                .OrderByDescending(r => r.At).Select(r => r.Seen.WaterC).FirstOrDefault(),
        }).ToListAsync(cancel);
        return rows.ToDictionary(r => r.Id, r => new LastReading(r.At, r.WaterC));
    }
}
