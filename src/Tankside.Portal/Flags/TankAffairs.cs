using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>What else is going on with a tank, beside its readings and its account. Each is rare, so all are asked for in one question.</summary>
/// <param name="Expected">Eggs of the next delivery, of a lot that has not come to it yet.</param>
/// <param name="Unreported">The oldest release whose report was not sent.</param>
/// <param name="Kept">The plan that it is steered by; where two people kept one in the same moment, the later.</param>
/// <param name="Unjudged">Facts that nobody has judged yet.</param>
internal sealed record TankAffairs(EggsExpected? Expected, UnreportedRelease? Unreported, SetPointPlan? Kept, IReadOnlyList<UnjudgedFact> Unjudged)
{
    private static readonly TankAffairs None = new(null, null, null, []);

    // Few rows of each beside one another: joined they stay few.
    private static readonly Compiled<IReadOnlyList<Guid>, DateOnly, bool, Row> Rows = new((db, tankIds, from, withUnjudged) => db.Tanks.AsNoTracking().AsSingleQuery()
        .Where(t => tankIds.Contains(t.Id))
        .Select(t => new Row(
            t.Id,
            db.Allotments.Where(a => a.TankId == t.Id && tankIds.Contains(a.TankId) && a.DeliveryOn >= from && a.Eggs > 0)
                .Where(a => !db.Receipts.Any(r => r.TankId == a.TankId && r.SeasonId == a.SeasonId && r.LotId == a.LotId))
                .Select(a => new Promised(a.DeliveryOn!.Value, a.Eggs, db.ReadyOverrides.Any(o => o.TankId == a.TankId && o.SeasonId == a.SeasonId && o.WithdrawnAt == null))).ToList(),
            db.Releases.Where(r => r.TankId == t.Id && tankIds.Contains(r.TankId) && r.WithdrawnAt == null && r.ReportedAt == null)
                .Join(db.Permits, r => r.PermitId, p => p.Id, (r, p) => new UnreportedRelease(r.At, r.Fish, p.Number)).ToList(),
            db.SetPointPlans.Where(p => p.TankId == t.Id && tankIds.Contains(p.TankId) && p.EndedAt == null).ToList(),
            db.UnjudgedFacts.Where(f => f.TankId == t.Id && withUnjudged && tankIds.Contains(f.TankId)).ToList())));

    private sealed record Row(
        Guid Id, IReadOnlyList<Promised> Promised, IReadOnlyList<UnreportedRelease> Unreported, IReadOnlyList<SetPointPlan> Plans, IReadOnlyList<UnjudgedFact> Unjudged);

    /// <param name="Signed">Somebody took it on themselves that the tank is ready for them.</param>
    private sealed record Promised(DateOnly DeliveryOn, int Eggs, bool Signed);

    /// <param name="withUnjudged">False when every fact of these tanks was judged just now, in this transaction.</param>
    public static async Task<TanksAffairs> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, bool withUnjudged, DateTime now, CancellationToken cancel)
    {
        // A promise of the day before is loaded too: which day it is depends on the time zone.
        var from = DateOnly.FromDateTime(now).AddDays(-1);
        var rows = await Rows.ToListAsync(db, tankIds, from, withUnjudged, cancel);
        return new TanksAffairs(rows.ToDictionary(r => r.Id, r => new TankAffairs(
            r.Promised.GroupBy(p => p.DeliveryOn).OrderBy(d => d.Key)
                .Select(d => new EggsExpected(d.Key, d.Sum(p => p.Eggs), d.All(p => p.Signed))).FirstOrDefault(),
            r.Unreported.MinBy(u => u.At),
            r.Plans.OrderBy(p => p.MadeAt).ThenBy(p => p.Id).LastOrDefault(),
            r.Unjudged)));
    }

    /// <summary>Those of many tanks.</summary>
    internal sealed class TanksAffairs(Dictionary<Guid, TankAffairs> tanks)
    {
        public TankAffairs Of(Guid tankId) => tanks.GetValueOrDefault(tankId, None);

        public IEnumerable<UnjudgedFact> Unjudged => tanks.Values.SelectMany(t => t.Unjudged);
    }
}
