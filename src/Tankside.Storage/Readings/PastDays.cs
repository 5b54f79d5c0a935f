using Microsoft.EntityFrameworkCore;

namespace Tankside.Storage.Readings;

/// <summary>
/// All days of a tank before one day, in one row: a judgement of ten thousand tanks by the clock would otherwise read more than a million rows
/// that do not change any more. The rows themselves stay. Whoever folds one of these days again takes this row away in the same transaction, and
/// the judge packs it anew.
/// </summary>
public sealed class PastDays
{
    /// <summary>Days up to the present that are read as rows, because they still change; and how many more these may become before they are packed.</summary>
    private const int Fresh = 7, Waits = 7;

    public Guid TankId { get; init; }

    /// <summary>The first day that is not in it.</summary>
    public DateOnly Until { get; set; }

    /// <summary>The days as <see cref="DayPack"/> writes them, ascending.</summary>
    public required byte[] Packed { get; set; }

    /// <summary>
    /// Packs the past of tanks that have none, or one that ended long ago; add to the context, do not save. Only in a transaction that keeps others from
    /// folding these tanks.
    /// </summary>
    public static async Task RenewAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, DateTime now, CancellationToken cancel)
    {
        var until = DateOnly.FromDateTime(now).AddDays(-Fresh);
        var old = until.AddDays(-Waits);
        var due = tankIds.Except(await db.PastDays.Where(p => tankIds.Contains(p.TankId) && p.Until >= old).Select(p => p.TankId).ToListAsync(cancel)).ToList();
        if (due.Count == 0)
        {
            return;
        }

        var kept = await db.PastDays.Where(p => due.Contains(p.TankId)).ToDictionaryAsync(p => p.TankId, cancel);
        var days = (await DaysOfTanks.ReadAsync(db, db.TankDays.Where(d => due.Contains(d.TankId) && d.Day < until), cancel)).ToLookup(d => d.TankId);
        // A tank that has no past yet gets no row: a tank that nothing refers to can be taken out again.
        foreach (var own in days)
        {
            var packed = DayPack.Write([.. own]);
            if (kept.GetValueOrDefault(own.Key) is { } past)
            {
                (past.Until, past.Packed) = (until, packed);
            }
            else
            {
                db.PastDays.Add(new PastDays { TankId = own.Key, Until = until, Packed = packed });
            }
        }
    }

    /// <summary>Takes away what holds one of these days; they are folded again in the same transaction. Add to the context, do not save.</summary>
    public static async Task ForgetAsync(HatcheryDb db, IReadOnlyCollection<(Guid TankId, DateOnly Day)> touched, CancellationToken cancel)
    {
        var first = touched.GroupBy(t => t.TankId).ToDictionary(g => g.Key, g => g.Min(t => t.Day));
        var (ids, earliest) = (first.Keys.ToList(), first.Values.Min());
        var held = await db.PastDays.Where(p => ids.Contains(p.TankId) && p.Until > earliest).ToListAsync(cancel);
        db.PastDays.RemoveRange(held.Where(p => p.Until > first[p.TankId]));
    }
}
