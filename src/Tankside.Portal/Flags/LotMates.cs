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

    private readonly Dictionary<Guid, Dictionary<Guid, SiblingLosses>> losses = [];
    private readonly Dictionary<Guid, List<HatchSeen>> hatches = [];

    /// <summary>A tank that received eggs of one of the lots, and the sum of its days.</summary>
    private sealed record Mate(
        Guid LotId, Guid TankId, DateTime At, string? Run, int Fish, double SetPointC, bool Newest, int? Dead, DateOnly? Counted, int? Hatched);

    /// <param name="lots">The lots as the tanks asked about hold them.</param>
    /// <param name="withLosses">False where nobody asks what the lot's other tanks lose: a class's page is opened by all of a lot at once.</param>
    public static async Task<LotMates> LoadAsync(HatcheryDb db, IReadOnlyCollection<LotInTank> lots, bool withLosses, CancellationToken cancel)
    {
        var result = new LotMates();
        var held = lots.GroupBy(l => l.LotId).ToDictionary(g => g.Key, g => g.First());
        if (held.Count == 0)
        {
            return result;
        }

        var mates = await MatesAsync(db, [.. held.Keys], withLosses, cancel);
        foreach (var mate in mates)
        {
            if (!result.losses.TryGetValue(mate.LotId, out var lot))
            {
                result.losses[mate.LotId] = lot = [];
            }

            // The instant's UTC day is near enough: a day more or less of exposure does not move a lot's rate.
            var days = mate.Counted is { } last ? Math.Max(1, last.DayNumber - DateOnly.FromDateTime(mate.At).DayNumber + 1) : 0;
            lot[mate.TankId] = new SiblingLosses(mate.Dead ?? 0, (double)Math.Max(0, mate.Fish) * days);
        }

        await result.AddHatchesAsync(db, held, mates, cancel);
        return result;
    }

    /// <summary>What a tank learns: the hatches of its lot's other tanks.</summary>
    public LotLearned LearnedBy(Guid lotId, Guid tankId) =>
        hatches.TryGetValue(lotId, out var seen) ? new LotLearned([.. seen.Where(s => s.Tank != tankId)]) : LotLearned.Nothing;

    /// <summary>The losses of the lot's other tanks.</summary>
    public SiblingLosses LossesBeside(Guid lotId, Guid tankId)
    {
        var others = losses[lotId].Where(t => t.Key != tankId).Select(t => t.Value).ToList();
        return new SiblingLosses(others.Sum(o => o.Deaths), others.Sum(o => o.FishDays));
    }

    private static async Task<List<Mate>> MatesAsync(HatcheryDb db, List<Guid> lotIds, bool withLosses, CancellationToken cancel)
    {
        // Not by the tanks' ids: a lot may have thousands, and each would be a parameter.
        var sums =
            from day in db.TankDays
            where db.Receipts.Any(r => r.TankId == day.TankId && lotIds.Contains(r.LotId))
                && ((withLosses && (day.DeadEggs != null || day.DeadAlevins != null || day.DeadFry != null)) || (day.Hatched != null && day.Hatched != Share.None))
            group day by day.TankId into own
            select new
            {
                TankId = own.Key,
                Dead = own.Sum(d => (d.DeadEggs ?? 0) + (d.DeadAlevins ?? 0) + (d.DeadFry ?? 0)),
                Counted = own.Max(d => d.DeadEggs != null || d.DeadAlevins != null || d.DeadFry != null ? (DateOnly?)d.Day : null),
                Hatched = own.Max(d => d.Hatched != null && d.Hatched != Share.None ? 1 : 0),
            };
        return await (
            from receipt in db.Receipts.AsNoTracking()
            join tank in db.Tanks on receipt.TankId equals tank.Id
            join sum in sums on receipt.TankId equals sum.TankId into found
            from sum in found.DefaultIfEmpty()
            where lotIds.Contains(receipt.LotId) && (withLosses || sum.Hatched == 1)
            select new Mate(
                receipt.LotId, receipt.TankId, receipt.At, receipt.Run, receipt.Eggs - receipt.DeadOnArrival, tank.SetPointC,
                !db.Receipts.Any(r => r.TankId == receipt.TankId && r.At > receipt.At), sum.Dead, sum.Counted, sum.Hatched)).ToListAsync(cancel);
    }

    private async Task AddHatchesAsync(HatcheryDb db, Dictionary<Guid, LotInTank> held, List<Mate> mates, CancellationToken cancel)
    {
        var hatched = mates.Where(m => m is { Newest: true, Hatched: 1 })
            .GroupBy(m => m.LotId).SelectMany(g => g.OrderBy(m => m.TankId).DistinctBy(m => m.TankId).Take(Enough)).ToList();
        if (hatched.Count == 0)
        {
            return;
        }

        // The water matters up to the last word about the hatch and no further.
        var tankIds = hatched.Select(t => t.TankId).ToList();
        var days = (await db.TankDays.AsNoTracking()
            .Where(d => tankIds.Contains(d.TankId) && db.TankDays.Any(w => w.TankId == d.TankId && w.Hatched != null && w.Day >= d.Day))
            .OrderBy(d => d.Day).Select(d => new { d.TankId, d.Day, d.MeanC, d.Hatched }).ToListAsync(cancel))
            .ToLookup(d => d.TankId, d => new TankDay { TankId = d.TankId, Day = d.Day, MeanC = d.MeanC, Hatched = d.Hatched });
        foreach (var mate in hatched)
        {
            var profile = held[mate.LotId].ProfileIn(mate.At, mate.Run);
            List<TankDay> own = [.. days[mate.TankId].Where(d => d.Day >= profile.DeliveredOn)];
            if (!hatches.TryGetValue(mate.LotId, out var seen))
            {
                hatches[mate.LotId] = seen = [];
            }

            seen.AddRange(HatchesSeen.Of(mate.TankId, profile, own, mate.SetPointC));
        }
    }
}
