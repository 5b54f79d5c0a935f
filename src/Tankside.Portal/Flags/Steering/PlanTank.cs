using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Charts;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Steering;

/// <summary>Until when a permit allows fish, and where it limits how long they may be held, the last day of that.</summary>
public sealed record PermitLimit(DateOnly Ends, DateOnly? HeldUntil)
{
    /// <summary>Whichever comes first.</summary>
    public DateOnly Last => HeldUntil < Ends ? HeldUntil.Value : Ends;
}

/// <summary>A tank before it is steered: how it stands, the plan that is kept, and the last day that its permits allow.</summary>
/// <param name="Permit">Of the permits for its species the one that allows the latest day; null where none is known.</param>
public sealed record TankToSteer(
    DateTime At, TankGlance Glance, SetPointPlan? Kept, IReadOnlyList<TemperaturePoint> Water, PermitLimit? Permit)
{
    public TimeWords Time { get; private init; } = new(Glance.Place.Calendar.Clock, At);

    public ScaleWords Scale { get; private init; } = new(Glance.Place.Programme.ScreenUnit);

    /// <summary>The same tank, said to another reader.</summary>
    public TankToSteer To(Say reader) => this with { Time = Time.To(reader), Scale = Scale.To(reader) };
}

/// <summary>Loads a tank for its plan and keeps the plan that somebody decided on.</summary>
public sealed class PlanTank(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<TankToSteer?> LoadAsync(string code, CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = time.GetUtcNow().UtcDateTime;
        if (await db.TanksOf(user).SingleOrDefaultAsync(t => t.Code == code, cancel) is not { } tank)
        {
            return null;
        }

        var glance = (await TankGlances.LoadAsync(db, [tank.Id], now, cancel)).Single();
        var kept = (await KeptPlans.LoadAsync(db, [tank.Id], cancel)).GetValueOrDefault(tank.Id);
        var water = await InTheTank.WaterHistory.LoadAsync(db, glance.Place, now, cancel);
        return new TankToSteer(now, glance, kept, water, glance.Lot is { } lot ? await LimitAsync(db, user, lot, glance.Place.Calendar.Clock.Day(now), cancel) : null);
    }

    private static async Task<PermitLimit?> LimitAsync(HatcheryDb db, CurrentUser user, LotProfile lot, DateOnly today, CancellationToken cancel) =>
        (await db.Permits.AsNoTracking().Where(p => p.ProgrammeId == user.ProgrammeId && p.Species == lot.Species && p.To >= today).ToListAsync(cancel))
            .Select(p => new PermitLimit(p.To, PermitRules.HeldUntil(p, lot.DeliveredOn))).MaxBy(l => l.Last);

    /// <summary>
    /// A kept plan ends the older one, and the tank's set-point is from now on what the plan says of the day. False when somebody else kept
    /// one meanwhile; then nothing is changed.
    /// </summary>
    public async Task<bool> KeepAsync(
        TankGlance glance, DateTime seenAt, CurrentUser user, SetPointGoal goal, DateOnly? goalDay, SetPointCourse course, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        var tank = await db.Tanks.SingleAsync(t => t.Id == glance.Place.Tank.Id, cancel);

        // The older ends before the newer is there: a tank has one open plan, and the database holds us to it.
        if (!await EndOpenAsync(db, tank.Id, user, now, seenAt, cancel) || !await SavedAsync(db, cancel))
        {
            return false;
        }

        db.SetPointPlans.Add(new SetPointPlan
        {
            Id = Guid.CreateVersion7(),
            TankId = tank.Id,
            MadeAt = now,
            MadeBy = user.PersonId,
            Goal = goal,
            GoalDay = goalDay,
            Steps = StoredSteps.Write(course.Steps),
        });
        tank.SetPointC = SetPointCourse.On(course.Steps, glance.Place.Calendar.Clock.Day(now));
        if (!await SavedAsync(db, cancel))
        {
            return false;
        }

        await transaction.CommitAsync(cancel);
        return true;
    }

    /// <summary>Ends the kept plan; the dial is left where it stands.</summary>
    public async Task<bool> EndAsync(TankToSteer tank, CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (tank.Kept is not { } kept || await db.SetPointPlans.SingleOrDefaultAsync(p => p.Id == kept.Id && p.EndedAt == null, cancel) is not { } open)
        {
            return false;
        }

        (open.EndedAt, open.EndedBy) = (Instants.ToMillisecond(time.GetUtcNow().UtcDateTime), user.PersonId);
        return await SavedAsync(db, cancel);
    }

    /// <summary>Says where the dial stands. A plan that is kept ends: whoever turned the dial otherwise has left it.</summary>
    public async Task<bool> SetDialAsync(TankToSteer seen, CurrentUser user, double setPointC, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var tank = await db.Tanks.SingleAsync(t => t.Id == seen.Glance.Place.Tank.Id, cancel);
        if (tank.Version != seen.Glance.Place.Tank.Version || !await EndOpenAsync(db, tank.Id, user, now, seen.At, cancel))
        {
            return false;
        }

        tank.SetPointC = Math.Round(setPointC, 4);
        return await SavedAsync(db, cancel);
    }

    private static async Task<bool> EndOpenAsync(HatcheryDb db, Guid tankId, CurrentUser user, DateTime now, DateTime seenAt, CancellationToken cancel)
    {
        var open = await db.SetPointPlans.Where(p => p.TankId == tankId && p.EndedAt == null).ToListAsync(cancel);
        if (open.Any(p => p.MadeAt > seenAt))
        {
            return false;
        }

        foreach (var older in open)
        {
            (older.EndedAt, older.EndedBy) = (now, user.PersonId);
        }

        return true;
    }

    private static async Task<bool> SavedAsync(HatcheryDb db, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
            return true;
        }
        catch (DbUpdateException)
        {
            return false;
        }
    }
}

/// <summary>The plans that tanks are steered by now.</summary>
public static class KeptPlans
{
    /// <summary>By tank; where two people kept one in the same moment, the later.</summary>
    public static async Task<Dictionary<Guid, SetPointPlan>> LoadAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        var open = await db.SetPointPlans.AsNoTracking().Where(p => tankIds.Contains(p.TankId) && p.EndedAt == null).ToListAsync(cancel);
        return open.GroupBy(p => p.TankId).ToDictionary(g => g.Key, g => g.OrderBy(p => p.MadeAt).ThenBy(p => p.Id).Last());
    }
}
