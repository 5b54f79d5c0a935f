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

    /// <summary>Tanks whose days are summed in one question: each is a parameter on SQLite.</summary>
    private const int AtOnce = 1000;

    private static readonly Compiled<List<Guid>, Mate> All = new((db, lotIds) =>
        from receipt in db.Receipts.AsNoTracking()
        join tank in db.Tanks on receipt.TankId equals tank.Id
        where lotIds.Contains(receipt.LotId)
        select new Mate(
            receipt.LotId, receipt.TankId, receipt.At, receipt.Run, receipt.Eggs - receipt.DeadOnArrival, tank.SetPointC,
            !db.Receipts.Any(r => r.TankId == receipt.TankId && r.At > receipt.At)));

    /// <summary>Those only whose fish were seen to hatch.</summary>
    private static readonly Compiled<List<Guid>, Mate> Hatching = new((db, lotIds) =>
        from receipt in db.Receipts.AsNoTracking()
        join tank in db.Tanks on receipt.TankId equals tank.Id
        where lotIds.Contains(receipt.LotId) && db.TankDays.Any(d => d.TankId == receipt.TankId && d.Hatched != null && d.Hatched != Share.None)
        select new Mate(
            receipt.LotId, receipt.TankId, receipt.At, receipt.Run, receipt.Eggs - receipt.DeadOnArrival, tank.SetPointC,
            !db.Receipts.Any(r => r.TankId == receipt.TankId && r.At > receipt.At)));

    private readonly ConcurrentDictionary<Guid, Known> lots = new();

    /// <summary>A tank that received eggs of one of the lots.</summary>
    private sealed record Mate(Guid LotId, Guid TankId, DateTime At, string? Run, int Fish, double SetPointC, bool Newest);

    /// <summary>The sum of a tank's days.</summary>
    private sealed record Told(Guid TankId, int Dead, DateOnly? Counted, bool Hatched);

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

        var mates = await (withLosses ? All : Hatching).ToListAsync(db, [.. held.Keys], cancel);
        var told = withLosses ? await ToldAsync(db, [.. mates.Select(m => m.TankId).Distinct()], cancel) : [];
        var hatches = await HatchesAsync(db, held, mates.Where(m => !withLosses || told.GetValueOrDefault(m.TankId) is { Hatched: true }), cancel);
        foreach (var (lotId, of) in mates.GroupBy(m => m.LotId).ToDictionary(g => g.Key))
        {
            var losses = new Dictionary<Guid, SiblingLosses>();
            foreach (var mate in of)
            {
                losses[mate.TankId] = LossesOf(mate, told.GetValueOrDefault(mate.TankId));
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

    private static SiblingLosses LossesOf(Mate mate, Told? told)
    {
        // The instant's UTC day is near enough: a day more or less of exposure does not move a lot's rate.
        var days = told?.Counted is { } last ? Math.Max(1, last.DayNumber - DateOnly.FromDateTime(mate.At).DayNumber + 1) : 0;
        return new SiblingLosses(told?.Dead ?? 0, (double)Math.Max(0, mate.Fish) * days);
    }

    /// <summary>
    /// By the tanks' ids, which leads through the index of their days. Joined to the tanks of the lot, before or after they are summed, PostgreSQL reads
    /// through all days of all tanks there are, for it expects few of them to tell anything.
    /// </summary>
    private static async Task<Dictionary<Guid, Told>> ToldAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        var told = new Dictionary<Guid, Told>();
        foreach (var some in tankIds.Chunk(AtOnce))
        {
            var sums = await (
                from day in db.TankDays
                where some.Contains(day.TankId)
                    && (day.DeadEggs != null || day.DeadAlevins != null || day.DeadFry != null || (day.Hatched != null && day.Hatched != Share.None))
                group day by day.TankId into own
                select new Told(
                    own.Key,
                    own.Sum(d => (d.DeadEggs ?? 0) + (d.DeadAlevins ?? 0) + (d.DeadFry ?? 0)),
                    own.Max(d => d.DeadEggs != null || d.DeadAlevins != null || d.DeadFry != null ? (DateOnly?)d.Day : null),
                    own.Max(d => d.Hatched != null && d.Hatched != Share.None ? 1 : 0) == 1)).ToListAsync(cancel);
            sums.ForEach(sum => told[sum.TankId] = sum);
        }

        return told;
    }

    private static async Task<ILookup<Guid, HatchSeen>> HatchesAsync(
        HatcheryDb db, Dictionary<Guid, LotInTank> held, IEnumerable<Mate> hatching, CancellationToken cancel)
    {
        var hatched = hatching.Where(m => m.Newest)
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
