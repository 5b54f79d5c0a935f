using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Steering;

/// <summary>One tank with fish and what the planner says of it.</summary>
public sealed record PlannedTank(TankGlance Glance, SetPointAnswer Answer, SetPointPlan? Kept);

/// <summary>The plans of a whole lot or school, each tank for itself.</summary>
public sealed class PlanTanks(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <param name="lot">A lot's code; null for all.</param>
    /// <param name="school">A school's name; null for all.</param>
    public async Task<(DateTime At, IReadOnlyList<TankGlance> Tanks, Dictionary<Guid, SetPointPlan> Kept)> LoadAsync(
        CurrentUser user, string? lot, string? school, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = time.GetUtcNow().UtcDateTime;
        var open = await db.TanksOf(user).Where(t => t.ClosedAt == null).Select(t => t.Id).ToListAsync(cancel);
        var glances = (await TankGlances.LoadAsync(db, open, now, cancel))
            .Where(g => g is { Lot: not null, Development: not null, Fish: > 0 }
                && (string.IsNullOrEmpty(lot) || g.Lot.Code == lot) && (string.IsNullOrEmpty(school) || g.Place.School.Name == school)).ToList();
        return (now, glances, await KeptPlans.LoadAsync(db, [.. glances.Select(g => g.Place.Tank.Id)], cancel));
    }

    /// <summary>Whether turning the dial helps a tank that no plan is kept for; one that has a plan is planned again on its own page.</summary>
    public static bool IsToKeep(PlannedTank tank) => tank is { Kept: null, Answer: SetPointsFound { LeaveAlone: false } };

    /// <summary>One tank's plan for the goal that needs no day.</summary>
    public static PlannedTank Plan(TankGlance tank, SetPointPlan? kept, DateTime now) => new(
        tank, SteeredTank.Ask(tank.Place, tank.Development!, tank.Days, now, SetPointGoal.ClearOfClosedDays, null, null), kept);
}
