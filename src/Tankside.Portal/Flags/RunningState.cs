using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>
/// Makes the running state of every tank again from its readings. It is kept in step by itself; this is for a database that was restored in
/// part or edited by hand, and for whoever wants to see that nothing changes.
/// </summary>
public sealed class RunningState(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>Tanks rebuilt in one transaction; each is read with all of its readings.</summary>
    private const int Group = 20;

    /// <summary>Rebuilds; a tank is either done or as it was. Portals may run meanwhile.</summary>
    /// <param name="progress">Told how many of how many tanks are done.</param>
    /// <returns>How many days were folded.</returns>
    public async Task<int> RebuildAsync(Action<int, int> progress, CancellationToken cancel)
    {
        List<Guid> tankIds;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            tankIds = await db.Tanks.OrderBy(t => t.Code).Select(t => t.Id).ToListAsync(cancel);
        }

        var (done, days) = (0, 0);
        progress(done, tankIds.Count);
        foreach (var group in tankIds.Chunk(Group))
        {
            days += await RebuildAsync(group, cancel);
            done += group.Length;
            progress(done, tankIds.Count);
        }

        return days;
    }

    private async Task<int> RebuildAsync(Guid[] tankIds, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        // The judge, which folds too, leaves these tanks alone until this is committed.
        var claimed = await JudgeClaim.TakeAsync(db, tankIds, wait: true, cancel);
        var places = await Surroundings.LoadAsync(db, claimed, cancel);
        var days = await DaysAsync(db, places, cancel);
        await DayFolding.FoldAsync(db, places, days, time.GetUtcNow().UtcDateTime, cancel);
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        return days.Count;
    }

    /// <summary>Every day from the first reading to the last, and those that something is kept of.</summary>
    private static async Task<HashSet<(Guid TankId, DateOnly Day)>> DaysAsync(HatcheryDb db, Surroundings places, CancellationToken cancel)
    {
        var ids = places.All.Select(p => p.Tank.Id).ToList();
        var spans = await db.Readings.Where(r => ids.Contains(r.TankId)).GroupBy(r => r.TankId)
            .Select(g => new { TankId = g.Key, First = g.Min(r => r.At), Last = g.Max(r => r.At) }).ToListAsync(cancel);
        var days = new HashSet<(Guid TankId, DateOnly Day)>();
        foreach (var span in spans)
        {
            var clock = places.Of(span.TankId).Calendar.Clock;
            for (var day = clock.Day(span.First); day <= clock.Day(span.Last); day = day.AddDays(1))
            {
                days.Add((span.TankId, day));
            }
        }

        days.UnionWith((await db.TankDays.Where(d => ids.Contains(d.TankId)).Select(d => new { d.TankId, d.Day }).ToListAsync(cancel)).Select(d => (d.TankId, d.Day)));
        days.UnionWith((await db.DayFacts.Where(d => ids.Contains(d.TankId)).Select(d => new { d.TankId, d.Day }).ToListAsync(cancel)).Select(d => (d.TankId, d.Day)));
        return days;
    }
}
