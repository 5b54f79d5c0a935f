using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Steering;

/// <summary>
/// Brings the set-points of tanks to what their kept plans say of today. A teacher turns the dial itself; that they did is taken as given
/// until the water or somebody says otherwise.
/// </summary>
public static class PlannedDials
{
    /// <returns>How many tanks have another set-point now.</returns>
    public static async Task<int> TurnAsync(HatcheryDb db, DateTime now, CancellationToken cancel)
    {
        var open = await (
            from plan in db.SetPointPlans.AsNoTracking()
            join tank in db.Tanks on plan.TankId equals tank.Id
            join programme in db.Programmes on tank.ProgrammeId equals programme.Id
            where plan.EndedAt == null && tank.ClosedAt == null
            select new { plan, tank.SetPointC, programme.TimeZone }).ToListAsync(cancel);
        var turned = 0;
        foreach (var row in open)
        {
            var today = ProgrammeClock.Of(row.TimeZone).Day(now);
            var planned = SetPointCourse.On(row.plan.Course(), today);
            if (Math.Abs(planned - row.SetPointC) > 1e-6)
            {
                // In one statement: a plan that is ended in this moment turns nothing.
                turned += await db.Tanks
                    .Where(t => t.Id == row.plan.TankId && db.SetPointPlans.Any(p => p.Id == row.plan.Id && p.EndedAt == null))
                    .ExecuteUpdateAsync(t => t.SetProperty(x => x.SetPointC, planned).SetProperty(x => x.Version, x => x.Version + 1), cancel);
            }
        }

        return turned;
    }
}
