using Tankside.Hatchery.Eggs.Runs;
using Tankside.Science.Units;

namespace Tankside.Portal.Eggs.Runs.Planning;

/// <summary>Turns a delivery day into a plan: what cannot go is told first, the rest is asked of the solver, and what it leaves out is told too.</summary>
public static class RoutePlanner
{
    /// <summary>Minutes of a day that a plan may use; nobody delivers past midnight.</summary>
    private const int Day = 24 * 60;

    public static DeliveryPlan Plan(DeliveryDay day, SolverEffort effort, Action<SolverProgress>? progress = null, CancellationToken cancel = default)
    {
        var hopeless = day.Stops.Select(s => (Stop: s, Why: DropReasons.Of(s, day))).Where(s => s.Why is not null).ToDictionary(s => s.Stop.Id, s => s.Why!.Value);
        var stops = day.Stops.Where(s => !hopeless.ContainsKey(s.Id)).ToList();
        var answer = RoutingSolver.Solve(Problem(day, stops), effort, progress, cancel);
        var left = answer is null ? stops : [.. answer.Left.Select(i => stops[i])];
        var taken = stops.Except(left).ToList();
        return new DeliveryPlan(
            answer is null ? [] : [.. answer.Routes.Select((route, v) => RouteOf(route, day.Drivers[v], stops, day))],
            [
                .. hopeless.Select(h => new DroppedStop(h.Key, h.Value)),
                .. left.Select(s => new DroppedStop(s.Id, DropReasons.BesideOthers(day, taken, s))),
            ]);
    }

    private static RoutingProblem Problem(DeliveryDay day, List<DeliveryStop> stops)
    {
        var places = stops.Select(s => s.At).Concat(day.Drivers.SelectMany(d => new[] { d.StartsAt, d.Depot })).Distinct().ToList();
        var number = places.Index().ToDictionary(p => p.Item, p => p.Index);
        return new RoutingProblem(
            Drives(day, places),
            [.. stops.Select(s => new RoutingVisit(number[s.At], s.Eggs, s.Window.From, s.LatestStart, s.Visit, Allowed(day, s), s.PinnedPlace))],
            [.. day.Drivers.Select(d => new RoutingVehicle(number[d.StartsAt], number[d.Depot], d.Eggs, d.FreeFrom, d.Shift.Until, d.UnderWay?.LeftAt))],
            Day,
            day.LongestOut);
    }

    private static long[,] Drives(DeliveryDay day, List<GeoPoint> places)
    {
        var drives = new long[places.Count, places.Count];
        for (var from = 0; from < places.Count; from++)
        {
            for (var to = 0; to < places.Count; to++)
            {
                drives[from, to] = day.Drive(places[from], places[to]);
            }
        }

        return drives;
    }

    private static IReadOnlyList<int>? Allowed(DeliveryDay day, DeliveryStop stop)
    {
        var may = day.Drivers.Index().Where(d => d.Item.MayTake(stop)).Select(d => d.Index).ToList();
        return may.Count == day.Drivers.Count ? null : may;
    }

    private static DriverRoute RouteOf(RoutedVehicle route, DriverShift driver, List<DeliveryStop> stops, DeliveryDay day)
    {
        var visits = route.Visits.Select(v => new PlannedVisit(stops[v.Visit].Id, (int)v.Begins, (int)v.Begins + stops[v.Visit].Visit)).ToList();
        if (visits.Count == 0)
        {
            return new DriverRoute(driver.Id, driver.FreeFrom, visits, driver.FreeFrom);
        }

        var last = stops[route.Visits[^1].Visit];
        return new DriverRoute(driver.Id, (int)route.Leaves, visits, visits[^1].Ends + day.Drive(last.At, driver.Depot));
    }
}
