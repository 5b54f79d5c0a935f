using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Accounts;
using Tankside.Portal.Eggs.Runs.Planning;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>How long the solver may look at a large day; small ones get a second.</summary>
public sealed record PlanPatience(TimeSpan Large, TimeSpan Small)
{
    public static readonly PlanPatience Usual = new(TimeSpan.FromSeconds(7), TimeSpan.FromSeconds(1));

    public SolverEffort For(int stops) => new(stops > 15 ? Large : Small);
}

/// <summary>A planning under way in this portal.</summary>
public sealed class PlanAtWork(TimeSpan longest)
{
    internal CancellationTokenSource Off { get; } = new();

    public TimeSpan Longest { get; } = longest;

    public SolverProgress? Best { get; internal set; }

    public Task Work { get; internal set; } = Task.CompletedTask;
}

/// <summary>
/// Plans a run in the background: the page shows how far it is. The plan is kept only if nothing of the run changed meanwhile and every rule
/// holds when it is reckoned through again; so calling it off, an edit or a second portal can never leave half a plan.
/// </summary>
public sealed class PlanRun(IDbContextFactory<HatcheryDb> databases, TimeProvider time, PlanPatience patience, ILogger<PlanRun> log)
{
    /// <summary>After this a planning that was not heard of again is taken for lost.</summary>
    private static readonly TimeSpan GivenUp = TimeSpan.FromMinutes(1);

    private readonly ConcurrentDictionary<Guid, PlanAtWork> atWork = new();

    public PlanAtWork? AtWork(Guid runId) => atWork.GetValueOrDefault(runId);

    public async Task<Notice> StartAsync(CurrentUser user, Guid runId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await RunBoard.LoadAsync(db, user.ProgrammeId, runId, Now, cancel) is not { } view)
        {
            return new Notice(false, "This run is gone. Nothing was planned.");
        }

        if (view.IsPlanning)
        {
            return new Notice(true, "It is being planned already.");
        }

        if (!view.Standing.Any() || view.Drivers.All(d => d.OutAt is not null))
        {
            return new Notice(false, "A plan needs at least one stop and one driver.");
        }

        var run = await db.DeliveryRuns.SingleAsync(r => r.Id == runId, cancel);
        (run.Plan, run.PlanningSince, run.PlanningUntil) = (PlanState.Planning, Now, Now + GivenUp);
        run.Turn++;
        var saved = await EditRun.SavedAsync(db, "Planning has begun.", cancel);
        if (saved.Good)
        {
            var day = DayOfRun.Of(view);
            AtWork(runId)?.Off.Cancel();
            var planning = new PlanAtWork(patience.For(day.Day.Stops.Count).Longest);
            atWork[runId] = planning;
            planning.Work = Task.Run(() => WorkAsync(view, day, run.Turn, planning), CancellationToken.None);
        }

        return saved;
    }

    public async Task<Notice> CallOffAsync(CurrentUser user, Guid runId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await EditRun.RunAsync(db, user, runId, cancel) is not { Plan: PlanState.Planning } run)
        {
            return new Notice(true, "Nothing is being planned.");
        }

        // Whatever the solver still finds is of an earlier turn, in whichever portal it works.

        run.Changed();
        AtWork(runId)?.Off.Cancel();
        return await EditRun.SavedAsync(db, "Called off. What was planned before stands as it was.", cancel);
    }

    private DateTime Now => Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);

    private async Task WorkAsync(RunView view, DayOfRun day, int turn, PlanAtWork planning)
    {
        try
        {
            var plan = RoutePlanner.Plan(day.Day, patience.For(day.Day.Stops.Count), best => planning.Best = best, planning.Off.Token);
            var broken = DeliveryPlanCheck.Broken(plan, day.Day);
            if (broken.Count > 0)
            {
                log.LogError("A plan of {Stops} stops broke {Faults} and was not kept", day.Day.Stops.Count, string.Join(", ", broken.Select(b => b.Fault).Distinct()));
            }

            await KeepAsync(view, broken.Count > 0 ? null : plan with { Dropped = [.. plan.Dropped, .. day.Hopeless] }, turn);
        }
        catch (OperationCanceledException) when (planning.Off.IsCancellationRequested)
        {
            // Called off: whoever did so has written it down.
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            log.LogError(e, "A run could not be planned");
            await KeepAsync(view, null, turn);
        }
        finally
        {
            atWork.TryRemove(new(view.Run.Id, planning));
        }
    }

    /// <param name="plan">Null when there is none that could be kept.</param>
    private async Task KeepAsync(RunView view, DeliveryPlan? plan, int turn)
    {
        await using var db = await databases.CreateDbContextAsync();
        var run = await db.DeliveryRuns.SingleAsync(r => r.Id == view.Run.Id);
        if (run.Turn != turn)
        {
            return;
        }

        run.Plan = plan is null ? PlanState.Failed : PlanState.Planned;
        if (plan is not null)
        {
            run.PlannedAt = Now;
            Write(
                plan, view, await db.RunDrivers.Where(d => d.RunId == run.Id).ToDictionaryAsync(d => d.Id), await db.RunStops.Where(s => s.RunId == run.Id).ToDictionaryAsync(s => s.Id));
        }

        if (await EditRun.SavedAsync(db, "", CancellationToken.None) is { Good: false })
        {
            log.LogInformation("A run was changed while its plan was kept; the plan was let go");
        }
    }

    private static void Write(DeliveryPlan plan, RunView view, Dictionary<Guid, RunDriver> drivers, Dictionary<Guid, RunStop> stops)
    {
        foreach (var stop in view.Stops.Where(s => !s.HasEnded).Select(s => stops[s.Stop.Id]))
        {
            (stop.DriverId, stop.Place, stop.Begins, stop.Ends, stop.Dropped) = (null, null, null, null, null);
        }

        foreach (var dropped in plan.Dropped)
        {
            stops[dropped.StopId].Dropped = dropped.Why;
        }

        foreach (var route in plan.Routes)
        {
            var driver = drivers[route.DriverId];
            var driven = view.Stops.Count(s => s.HasEnded && s.Stop.DriverId == driver.Id);
            var drives = route.Visits.Count > 0;
            driver.Leaves = driven > 0 || view.OnRoad(driver) is not null ? driver.Leaves : drives ? DayWindow.TimeOf(route.Leaves) : null;
            driver.Back = drives ? DayWindow.TimeOf(route.Back) : driven > 0 ? driver.Back : null;
            foreach (var (index, visit) in route.Visits.Index())
            {
                var stop = stops[visit.StopId];
                (stop.DriverId, stop.Place) = (driver.Id, driven + index + 1);
                (stop.Begins, stop.Ends) = (DayWindow.TimeOf(visit.Begins), DayWindow.TimeOf(visit.Ends));
            }
        }
    }
}
