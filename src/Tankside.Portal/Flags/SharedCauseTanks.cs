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
        return await OfAsync(db, records, flags.ToLookup(f => f.TankId!.Value), now, cancel);
    }

    /// <summary>From what the tanks were judged by.</summary>
    /// <param name="open">What stands at each of them.</param>
    public static async Task<Dictionary<Guid, SharedCauseTank>> OfAsync(
        HatcheryDb db, IReadOnlyList<TankRecord> records, ILookup<Guid, Flag> open, DateTime now, CancellationToken cancel)
    {
        var ids = records.Select(r => r.Tank.Id).ToList();
        var arrivals = (await db.Receipts.AsNoTracking().Where(r => ids.Contains(r.TankId))
            .Select(r => new { r.TankId, r.At, r.Eggs, r.DeadOnArrival }).ToListAsync(cancel)).ToLookup(r => r.TankId);
        return records.ToDictionary(record => record.Tank.Id, record =>
        {
            var newest = arrivals[record.Tank.Id].MaxBy(r => r.At);
            return SharedCauseTank.Of(record, [.. open[record.Tank.Id].Select(f => new StandingTrouble(f.AsFinding(), f.OpenedAt))], now) with
            {
                Received = newest?.Eggs ?? 0,
                DeadOnArrival = newest?.DeadOnArrival ?? 0,
            };
        });
    }
}
