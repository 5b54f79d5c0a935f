using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Places;
using Tankside.Storage;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Flags;

/// <summary>
/// Loads what tanks are judged by, for many tanks at once: a fixed number of queries however many there are, and none of them reads a
/// season's raw readings.
/// </summary>
public static class TankRecords
{
    private static readonly Compiled<IReadOnlyList<Guid>, LedgerEntry> Lines = new((db, tankIds) => db.Ledger.AsNoTracking().Where(e => tankIds.Contains(e.TankId)));

    public static async Task<IReadOnlyList<TankRecord>> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, DateTime now, CancellationToken cancel) =>
        await LoadAsync(db, tankIds, await Surroundings.LoadAsync(db, tankIds, cancel, now), withSiblings: true, now, cancel);

    /// <param name="withSiblings">False where nobody asks what the lot's other tanks lose: a class's page is opened by all of a lot at once.</param>
    public static async Task<IReadOnlyList<TankRecord>> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, Surroundings surroundings, bool withSiblings, DateTime now, CancellationToken cancel) =>
        [.. await EachAsync(db, tankIds, surroundings, withSiblings, folded: false, now, cancel)];

    /// <summary>The records one after the other, each made when it is asked for: those of many tanks at once would take much memory.</summary>
    /// <param name="folded">True when every new fact of these tanks was folded just now, in this transaction.</param>
    /// <param name="known">What was looked up of lots for tanks before these, of which more is kept here; null when nobody asks for others.</param>
    public static async Task<IEnumerable<TankRecord>> EachAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, Surroundings surroundings, bool withSiblings, bool folded, DateTime now, CancellationToken cancel, LotMates? known = null)
    {
        var loaded = await LoadedAsync(db, tankIds, surroundings, withSiblings, folded, now, cancel, known);
        return loaded.Select(t => t.Record);
    }

    /// <summary>The record with what it was made from.</summary>
    /// <param name="LastLineAt">When the newest line of its account happened, UTC; null without any.</param>
    /// <param name="Kept">The plan that it is steered by.</param>
    internal sealed record Loaded(TankRecord Record, LotInTank? Lot, DateTime? LastLineAt, SetPointPlan? Kept);

    internal static async Task<IEnumerable<Loaded>> LoadedAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, Surroundings surroundings, bool withSiblings, bool folded, DateTime now, CancellationToken cancel, LotMates? known = null)
    {
        // Before the facts of the days: one that is judged between the two questions is then read twice, not missed.
        var affairs = await TankAffairs.LoadAsync(db, tankIds, withUnjudged: !folded, now, cancel);
        var lots = await LotsInTanks.LoadAsync(db, tankIds, surroundings, cancel);
        var ledger = (await Lines.ToListAsync(db, tankIds, cancel)).ToLookup(e => e.TankId);
        var recent = await RecentFacts.LoadAsync(db, surroundings, tankIds, affairs.Unjudged, now, cancel);
        var days = await DaysOfTanks.LoadAsync(db, tankIds, cancel);
        var marks = await AreaMarks.LoadAsync(db, surroundings, now, cancel);
        var mates = known ?? new LotMates();
        await mates.LookUpAsync(db, lots.Values, withSiblings, cancel);

        return tankIds.Where(surroundings.Knows).Select(id =>
        {
            var place = surroundings.Of(id);
            var lot = lots.GetValueOrDefault(id);
            var own = affairs.Of(id);
            List<LedgerEntry> lines = lot is null ? [] : [.. ledger[id].Where(e => e.SeasonId == lot.SeasonId)];
            var account = lot is null ? null : StandOf(lines, place.Tank.ClosedAt);
            return new Loaded(new TankRecord
            {
                Tank = place.Profile(),
                Lot = lot?.Profile,
                Fish = account?.Balance.StillInTank ?? 0,
                Ledger = account,
                Unreported = own.Unreported,
                Expected = place.Tank.ClosedAt is null ? own.Expected : null,
                Recent = recent.Of(id),
                Days = DaysOf(days.Of(id), lot),
                Calendar = place.Calendar,
                Marks = marks.Of(place),
                Siblings = lot is null || !withSiblings ? SiblingLosses.None : mates.LossesBeside(lot.LotId, id),
                Learned = lot is null ? LotLearned.Nothing : mates.LearnedBy(lot.LotId, id),
                Plan = own.Kept?.Course(),
                Limits = place.Limits,
                Texts = place.OwnTexts,
            }, lot, lines.Count == 0 ? null : lines.Max(e => e.At), own.Kept);
        });
    }

    /// <summary>Those since its eggs came; nearly always all of them.</summary>
    private static IReadOnlyList<TankDay> DaysOf(IReadOnlyList<TankDay> days, LotInTank? lot) =>
        lot is null || days is [{ } first, ..] && first.Day >= lot.Profile.DeliveredOn ? days : [.. days.Where(d => d.Day >= lot.Profile.DeliveredOn)];

    private static LedgerStand StandOf(List<LedgerEntry> entries, DateTime? closedAt)
    {
        var balance = TankBalance.Of(entries, closedAt is not null);
        var count = TankBalance.LastCount(entries);

        // A loss that a class reports each day is no news about an account that a count or the closing has drawn up.
        var drawnUp = count?.EnteredAt ?? closedAt ?? entries.Select(e => e.EnteredAt).DefaultIfEmpty().Max();
        return new LedgerStand(balance, count?.At, closedAt, closedAt > drawnUp ? closedAt.Value : drawnUp);
    }
}
