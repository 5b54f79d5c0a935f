using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Flags.Leaving;

/// <summary>
/// The looks at many tanks since their newest eggs came, from the daily summaries: a few questions however many tanks, and no raw reading.
/// </summary>
public sealed class NotKnownHours
{
    private readonly Dictionary<Guid, HoursNotKnown> tanks = [];

    private NotKnownHours()
    {
    }

    public IReadOnlyCollection<HoursNotKnown> All => tanks.Values;

    /// <summary>When the first of these eggs came, UTC; null when none have.</summary>
    public DateTime? FirstEggs { get; private set; }

    /// <summary>Null for a tank that has had no eggs, or only this moment.</summary>
    public NotKnown? Of(Guid tankId) => tanks.GetValueOrDefault(tankId)?.Whole;

    public static async Task<NotKnownHours> LoadAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, DateTime now, CancellationToken cancel)
    {
        var receipts = await db.Receipts.AsNoTracking().Where(r => tankIds.Contains(r.TankId))
            .Select(r => new { r.TankId, r.SeasonId, r.At }).ToListAsync(cancel);
        var fish = await Releases.FishInTanks.LoadAsync(db, tankIds, cancel);
        var lastLine = await db.Ledger.Where(e => tankIds.Contains(e.TankId)).GroupBy(e => new { e.TankId, e.SeasonId })
            .Select(g => new { g.Key.TankId, g.Key.SeasonId, At = g.Max(e => e.At) }).ToDictionaryAsync(e => (e.TankId, e.SeasonId), e => e.At, cancel);
        var closed = await db.Tanks.Where(t => tankIds.Contains(t.Id) && t.ClosedAt != null).ToDictionaryAsync(t => t.Id, t => t.ClosedAt, cancel);
        var days = await DaysOfTanks.LoadAsync(db, tankIds, cancel);

        var result = new NotKnownHours();
        foreach (var newest in receipts.GroupBy(r => r.TankId).Select(g => g.MaxBy(r => r.At)!))
        {
            result.tanks[newest.TankId] = Since(
                newest.At, days.Of(newest.TankId), fish.Of(newest.TankId),
                lastLine.TryGetValue((newest.TankId, newest.SeasonId), out var at) ? at : null, closed.GetValueOrDefault(newest.TankId), now);
            result.FirstEggs = result.FirstEggs < newest.At ? result.FirstEggs : newest.At;
        }

        return result;
    }

    /// <summary>Of a tank whose record was loaded; null when it has had no eggs, or only this moment.</summary>
    internal static NotKnown? Of(TankRecords.Loaded tank, DateTime now) => tank.Lot is not { } lot ? null
        : Since(lot.Came, tank.Record.Days, tank.Record.Fish, tank.LastLineAt, tank.Record.Ledger?.ClosedAt, now).Whole;

    private static HoursNotKnown Since(DateTime came, IEnumerable<TankDay> days, int fish, DateTime? lastLine, DateTime? closed, DateTime now) =>
        new(days.Where(d => d.LastAt >= came), came, Earliest(now, closed, fish > 0 ? null : lastLine ?? came));

    private static DateTime Earliest(DateTime now, DateTime? closed, DateTime? gone) =>
        new[] { now, closed ?? now, gone ?? now }.Min();
}
