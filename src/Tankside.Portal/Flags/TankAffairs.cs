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

    /// <param name="withUnjudged">False when every fact of these tanks was judged just now, in this transaction.</param>
    public static async Task<TanksAffairs> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, bool withUnjudged, DateTime now, CancellationToken cancel)
    {
        // A promise of the day before is loaded too: which day it is depends on the time zone.
        var from = DateOnly.FromDateTime(now).AddDays(-1);
        var promised = db.Allotments
            .Where(a => tankIds.Contains(a.TankId) && a.DeliveryOn >= from && a.Eggs > 0)
            .Where(a => !db.Receipts.Any(r => r.TankId == a.TankId && r.SeasonId == a.SeasonId && r.LotId == a.LotId));
        var unreported =
            from release in db.Releases
            join permit in db.Permits on release.PermitId equals permit.Id
            where tankIds.Contains(release.TankId) && release.WithdrawnAt == null && release.ReportedAt == null
            select new { release.TankId, release.At, release.Fish, permit.Number };
        var plans = db.SetPointPlans.Where(p => tankIds.Contains(p.TankId) && p.EndedAt == null);
        var unjudged = db.UnjudgedFacts.Where(f => withUnjudged && tankIds.Contains(f.TankId));

        var rows = await db.Tanks.AsNoTracking()
            .Where(t => tankIds.Contains(t.Id))
            .Select(t => new
            {
                t.Id,
                Promised = promised.Where(a => a.TankId == t.Id).Select(a => new
                {
                    a.DeliveryOn,
                    a.Eggs,
                    Signed = db.ReadyOverrides.Any(o => o.TankId == a.TankId && o.SeasonId == a.SeasonId && o.WithdrawnAt == null),
                }).ToList(),
                Unreported = unreported.Where(r => r.TankId == t.Id).ToList(),
                Plans = plans.Where(p => p.TankId == t.Id).ToList(),
                Unjudged = unjudged.Where(f => f.TankId == t.Id).ToList(),
            }).ToListAsync(cancel);
        return new TanksAffairs(rows.ToDictionary(r => r.Id, r => new TankAffairs(
            r.Promised.GroupBy(p => p.DeliveryOn!.Value).OrderBy(d => d.Key)
                .Select(d => new EggsExpected(d.Key, d.Sum(p => p.Eggs), d.All(p => p.Signed))).FirstOrDefault(),
            r.Unreported.OrderBy(u => u.At).Select(u => new UnreportedRelease(u.At, u.Fish, u.Number)).FirstOrDefault(),
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
