using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Flags.Steering;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>
/// Loads what tanks are judged by, for many tanks at once: a fixed number of queries however many there are, and none of them reads a
/// season's raw readings.
/// </summary>
public static class TankRecords
{
    public static async Task<IReadOnlyList<TankRecord>> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, DateTime now, CancellationToken cancel) =>
        await LoadAsync(db, tankIds, await Surroundings.LoadAsync(db, tankIds, cancel, now), withSiblings: true, now, cancel);

    /// <param name="withSiblings">False where nobody asks what the lot's other tanks lose: a class's page is opened by all of a lot at once.</param>
    public static async Task<IReadOnlyList<TankRecord>> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, Surroundings surroundings, bool withSiblings, DateTime now, CancellationToken cancel) =>
        [.. await EachAsync(db, tankIds, surroundings, withSiblings, folded: false, now, cancel)];

    /// <summary>The records one after the other, each made when it is asked for: those of many tanks at once would take much memory.</summary>
    /// <param name="folded">True when every new fact of these tanks was folded just now, in this transaction.</param>
    public static async Task<IEnumerable<TankRecord>> EachAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, Surroundings surroundings, bool withSiblings, bool folded, DateTime now, CancellationToken cancel)
    {
        var lots = await LotsInTanks.LoadAsync(db, tankIds, surroundings, cancel);
        var ledger = (await db.Ledger.AsNoTracking().Where(e => tankIds.Contains(e.TankId)).ToListAsync(cancel)).ToLookup(e => e.TankId);
        var recent = await RecentFacts.LoadAsync(db, surroundings, tankIds, now, folded, cancel);
        var days = (await db.TankDays.AsNoTracking().Where(d => tankIds.Contains(d.TankId)).OrderBy(d => d.Day).ToListAsync(cancel))
            .ToLookup(d => d.TankId);
        var expected = await ExpectedEggs.LoadAsync(db, tankIds, now, cancel);
        var marks = await AreaMarks.LoadAsync(db, surroundings, now, cancel);
        var unreported = await UnreportedAsync(db, tankIds, cancel);
        var hatches = await LotHatches.LoadAsync(db, [.. lots.Values], cancel);
        var plans = await KeptPlans.LoadAsync(db, tankIds, cancel);
        var siblings = withSiblings ? await SiblingRecord.LoadAsync(db, lots.Values.Select(l => l.LotId).Distinct().ToList(), cancel) : null;

        return tankIds.Where(surroundings.Knows).Select(id =>
        {
            var place = surroundings.Of(id);
            var lot = lots.GetValueOrDefault(id);
            var account = lot is null ? null : StandOf([.. ledger[id].Where(e => e.SeasonId == lot.SeasonId)], place.Tank.ClosedAt);
            return new TankRecord
            {
                Tank = place.Profile(),
                Lot = lot?.Profile,
                Fish = account?.Balance.StillInTank ?? 0,
                Ledger = account,
                Unreported = unreported.GetValueOrDefault(id),
                Expected = place.Tank.ClosedAt is null ? expected.GetValueOrDefault(id) : null,
                Recent = recent.Of(id),
                Days = [.. days[id].Where(d => lot is null || d.Day >= lot.Profile.DeliveredOn)],
                Calendar = place.Calendar,
                Marks = marks.Of(place),
                Siblings = lot is null ? SiblingLosses.None : siblings?.Of(lot.LotId, id) ?? SiblingLosses.None,
                Learned = lot is null ? LotLearned.Nothing : hatches.For(lot.LotId, id),
                Plan = plans.GetValueOrDefault(id)?.Course(),
                Limits = place.Limits,
                Texts = place.OwnTexts,
            };
        });
    }

    private static LedgerStand StandOf(List<LedgerEntry> entries, DateTime? closedAt)
    {
        var balance = TankBalance.Of(entries, closedAt is not null);
        var count = TankBalance.LastCount(entries);

        // A loss that a class reports each day is no news about an account that a count or the closing has drawn up.
        var drawnUp = count?.EnteredAt ?? closedAt ?? entries.Select(e => e.EnteredAt).DefaultIfEmpty().Max();
        return new LedgerStand(balance, count?.At, closedAt, closedAt > drawnUp ? closedAt.Value : drawnUp);
    }

    private static async Task<Dictionary<Guid, UnreportedRelease>> UnreportedAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        var rows = await (
            from release in db.Releases.AsNoTracking()
            join permit in db.Permits on release.PermitId equals permit.Id
            where tankIds.Contains(release.TankId) && release.WithdrawnAt == null && release.ReportedAt == null
            select new { release.TankId, release.At, release.Fish, permit.Number }).ToListAsync(cancel);
        return rows.GroupBy(r => r.TankId).ToDictionary(g => g.Key, g => g.OrderBy(r => r.At).Select(r => new UnreportedRelease(r.At, r.Fish, r.Number)).First());
    }
}
