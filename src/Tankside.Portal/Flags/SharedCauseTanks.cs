using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>Tanks as the search for shared causes takes them in.</summary>
internal static class SharedCauseTanks
{
    /// <summary>From the database, for tanks that nobody has just judged.</summary>
    public static async Task<Dictionary<Guid, SharedCauseTank>> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, DateTime now, CancellationToken cancel)
    {
        var records = await TankRecords.LoadAsync(db, tankIds, now, cancel);
        var flags = await db.Flags.AsNoTracking().Where(f => f.TankId != null && tankIds.Contains(f.TankId.Value) && f.State == FlagState.Open).ToListAsync(cancel);
        return await WithAsync(db, records.ToDictionary(r => r.Tank.Id, r => SharedCauseTank.Of(r, now)), flags.ToLookup(f => f.TankId!.Value), cancel);
    }

    /// <summary>With what stands at each of them, and with how they arrived.</summary>
    /// <param name="tanks">As they were judged.</param>
    public static async Task<Dictionary<Guid, SharedCauseTank>> WithAsync(
        HatcheryDb db, IReadOnlyDictionary<Guid, SharedCauseTank> tanks, ILookup<Guid, Flag> open, CancellationToken cancel)
    {
        var ids = tanks.Keys.ToList();
        var arrivals = (await db.Receipts.AsNoTracking().Where(r => ids.Contains(r.TankId))
            .Select(r => new { r.TankId, r.At, r.Eggs, r.DeadOnArrival }).ToListAsync(cancel)).ToLookup(r => r.TankId);
        return tanks.ToDictionary(t => t.Key, t =>
        {
            var newest = arrivals[t.Key].MaxBy(r => r.At);
            return t.Value.Standing([.. open[t.Key].Select(f => new StandingTrouble(f.AsFinding(), f.OpenedAt))]) with
            {
                Received = newest?.Eggs ?? 0,
                DeadOnArrival = newest?.DeadOnArrival ?? 0,
            };
        });
    }
}
