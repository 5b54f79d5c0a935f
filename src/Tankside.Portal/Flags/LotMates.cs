using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>
/// What is known of all the tanks that hold some lots, whichever school they stand in: what they lost so far, the prior of a tank's own
/// losses, and what was seen of the hatch, the dates by which siblings sharpen. From the daily summaries, which hold only readings that
/// count, so that one taken back takes its loss and its hatch along.
/// </summary>
public sealed class LotMates
{
    /// <summary>
    /// Tanks of a lot whose hatch is looked at: after so many the lot's own error is known to a fraction of what each tank adds by itself.
    /// Taken in the order of their ids, which knows nothing of when they hatched.
    /// </summary>
    private const int Enough = 24;

    private readonly ConcurrentDictionary<Guid, Known> lots = new();

    /// <summary>A tank that received eggs of one of the lots, and the sum of its days.</summary>
    private sealed record Mate(
        Guid LotId, Guid TankId, DateTime At, string? Run, int Fish, double SetPointC, bool Newest, int Dead, DateOnly? Counted, int Hatched);

    /// <summary>What is known of one lot.</summary>
    private sealed record Known(IReadOnlyDictionary<Guid, SiblingLosses> Losses, SiblingLosses Sum, IReadOnlyList<HatchSeen> Hatches);

    /// <param name="lots">The lots as the tanks asked about hold them.</param>
    /// <param name="withLosses">False where nobody asks what the lot's other tanks lose: a class's page is opened by all of a lot at once.</param>
    public static async Task<LotMates> LoadAsync(HatcheryDb db, IReadOnlyCollection<LotInTank> lots, bool withLosses, CancellationToken cancel)
    {
        var mates = new LotMates();
        await mates.LookUpAsync(db, lots, withLosses, cancel);
        return mates;
    }

    /// <summary>
    /// Looks up what is not known here yet. Whoever goes through all tanks, group by group, looks each lot up once: a lot may stand in thousands of
    /// tanks, and those of a group would each time ask for all of them. Groups may ask at the same time.
    /// </summary>
    /// <param name="asked">The lots as the tanks asked about hold them.</param>
    /// <param name="withLosses">The same each time.</param>
    public async Task LookUpAsync(HatcheryDb db, IEnumerable<LotInTank> asked, bool withLosses, CancellationToken cancel)
    {
        var held = asked.Where(l => !lots.ContainsKey(l.LotId)).GroupBy(l => l.LotId).ToDictionary(g => g.Key, g => g.First());
        if (held.Count == 0)
        {
            return;
        }

        List<Guid> lotIds = [.. held.Keys];
        var mates = await (withLosses ? WithLossesAsync(db, lotIds, cancel) : HatchingAsync(db, lotIds, cancel));
        var hatches = await HatchesAsync(db, held, mates, cancel);
        foreach (var (lotId, of) in mates.GroupBy(m => m.LotId).ToDictionary(g => g.Key))
        {
            var losses = new Dictionary<Guid, SiblingLosses>();
            foreach (var mate in of)
            {
                losses[mate.TankId] = LossesOf(mate);
            }

            lots[lotId] = new Known(losses, new SiblingLosses(losses.Values.Sum(l => l.Deaths), losses.Values.Sum(l => l.FishDays)), [.. hatches[lotId]]);
        }
    }

    /// <summary>What a tank learns: the hatches of its lot's other tanks.</summary>
    public LotLearned LearnedBy(Guid lotId, Guid tankId) =>
        lots.TryGetValue(lotId, out var known) && known.Hatches.Count > 0 ? new LotLearned([.. known.Hatches.Where(s => s.Tank != tankId)]) : LotLearned.Nothing;

    /// <summary>The losses of the lot's other tanks.</summary>
    public SiblingLosses LossesBeside(Guid lotId, Guid tankId)
    {
        // Whole numbers both, so that taking one away leaves what the others sum up to.
        var (sum, own) = (lots[lotId].Sum, lots[lotId].Losses.GetValueOrDefault(tankId, SiblingLosses.None));
        return new SiblingLosses(sum.Deaths - own.Deaths, sum.FishDays - own.FishDays);
    }

    private static SiblingLosses LossesOf(Mate mate)
    {
        // The instant's UTC day is near enough: a day more or less of exposure does not move a lot's rate.
        var days = mate.Counted is { } last ? Math.Max(1, last.DayNumber - DateOnly.FromDateTime(mate.At).DayNumber + 1) : 0;
        return new SiblingLosses(mate.Dead, (double)Math.Max(0, mate.Fish) * days);
    }

    /// <summary>Those only whose fish were seen to hatch.</summary>
    private static Task<List<Mate>> HatchingAsync(HatcheryDb db, List<Guid> lotIds, CancellationToken cancel) => (
        from receipt in db.Receipts.AsNoTracking()
        join tank in db.Tanks on receipt.TankId equals tank.Id
        where lotIds.Contains(receipt.LotId) && db.TankDays.Any(d => d.TankId == receipt.TankId && d.Hatched != null && d.Hatched != Share.None)
        select new Mate(
            receipt.LotId, receipt.TankId, receipt.At, receipt.Run, receipt.Eggs - receipt.DeadOnArrival, tank.SetPointC,
            !db.Receipts.Any(r => r.TankId == receipt.TankId && r.At > receipt.At), 0, null, 1)).ToListAsync(cancel);

    /// <summary>
    /// Every tank of the lots. Joined day by day and summed after that: of sums joined to the tanks PostgreSQL makes those of all tanks there are, and
    /// reads through all their days to do so.
    /// </summary>
    private static Task<List<Mate>> WithLossesAsync(HatcheryDb db, List<Guid> lotIds, CancellationToken cancel) => (
        from receipt in db.Receipts.AsNoTracking()
        join tank in db.Tanks on receipt.TankId equals tank.Id
        from day in db.TankDays.Where(d => d.TankId == receipt.TankId
            && (d.DeadEggs != null || d.DeadAlevins != null || d.DeadFry != null || (d.Hatched != null && d.Hatched != Share.None))).DefaultIfEmpty()
        where lotIds.Contains(receipt.LotId)
        group day by new { receipt.LotId, receipt.TankId, receipt.At, receipt.Run, receipt.Eggs, receipt.DeadOnArrival, tank.SetPointC } into own
        select new Mate(
            own.Key.LotId, own.Key.TankId, own.Key.At, own.Key.Run, own.Key.Eggs - own.Key.DeadOnArrival, own.Key.SetPointC,
            !db.Receipts.Any(r => r.TankId == own.Key.TankId && r.At > own.Key.At),
            own.Sum(d => (d.DeadEggs ?? 0) + (d.DeadAlevins ?? 0) + (d.DeadFry ?? 0)),
            own.Max(d => d.DeadEggs != null || d.DeadAlevins != null || d.DeadFry != null ? (DateOnly?)d.Day : null),
            own.Max(d => d.Hatched != null && d.Hatched != Share.None ? 1 : 0))).ToListAsync(cancel);

    private static async Task<ILookup<Guid, HatchSeen>> HatchesAsync(
        HatcheryDb db, Dictionary<Guid, LotInTank> held, List<Mate> mates, CancellationToken cancel)
    {
        var hatched = mates.Where(m => m is { Newest: true, Hatched: 1 })
            .GroupBy(m => m.LotId).SelectMany(g => g.OrderBy(m => m.TankId).DistinctBy(m => m.TankId).Take(Enough)).ToList();
        if (hatched.Count == 0)
        {
            return Enumerable.Empty<HatchSeen>().ToLookup(_ => Guid.Empty);
        }

        // The water matters up to the last word about the hatch and no further.
        var tankIds = hatched.Select(t => t.TankId).ToList();
        var days = (await db.TankDays.AsNoTracking()
            .Where(d => tankIds.Contains(d.TankId) && db.TankDays.Any(w => w.TankId == d.TankId && w.Hatched != null && w.Day >= d.Day))
            .OrderBy(d => d.Day).Select(d => new { d.TankId, d.Day, d.MeanC, d.Hatched }).ToListAsync(cancel))
            .ToLookup(d => d.TankId, d => new TankDay { TankId = d.TankId, Day = d.Day, MeanC = d.MeanC, Hatched = d.Hatched });
        return hatched.SelectMany(mate =>
        {
            var profile = held[mate.LotId].ProfileIn(mate.At, mate.Run);
            return HatchesSeen.Of(mate.TankId, profile, [.. days[mate.TankId].Where(d => d.Day >= profile.DeliveredOn)], mate.SetPointC).Select(seen => (mate.LotId, Seen: seen));
        }).ToLookup(s => s.LotId, s => s.Seen);
    }
}
