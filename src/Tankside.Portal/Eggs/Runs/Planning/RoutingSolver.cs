using Google.OrTools.ConstraintSolver;
using Google.Protobuf.WellKnownTypes;

namespace Tankside.Portal.Eggs.Runs.Planning;

/// <summary>
/// Asks Google's OR-Tools. The eggs' time out of water is the one rule that its routing library does not know: the clock of each vehicle, less the
/// last drive home, may not run longer than that between the start and the end.
/// </summary>
public static class RoutingSolver
{
    /// <summary>What leaving a visit out costs: more than any day's driving, so that nothing is left out to save a detour.</summary>
    private const long PriceOfLeaving = 10_000_000;

    /// <summary>Null when nothing at all was found, which happens only when it was stopped before the first answer.</summary>
    public static RoutingAnswer? Solve(RoutingProblem problem, SolverEffort effort, Action<SolverProgress>? progress, CancellationToken cancel)
    {
        if (problem.Visits.Count == 0 || problem.Vehicles.Count == 0)
        {
            return new RoutingAnswer([.. problem.Vehicles.Select(v => new RoutedVehicle(v.Earliest, [], v.Earliest))], [.. Enumerable.Range(0, problem.Visits.Count)], 0);
        }

        using var model = new RoutingModelOf(problem);
        var routing = model.Routing;
        var parameters = operations_research_constraint_solver.DefaultRoutingSearchParameters();
        parameters.FirstSolutionStrategy = FirstSolutionStrategy.Types.Value.ParallelCheapestInsertion;
        if (effort.Longest > TimeSpan.Zero)
        {
            parameters.LocalSearchMetaheuristic = LocalSearchMetaheuristic.Types.Value.GuidedLocalSearch;
            parameters.TimeLimit = Duration.FromTimeSpan(effort.Longest);
        }
        else
        {
            parameters.LocalSearchMetaheuristic = LocalSearchMetaheuristic.Types.Value.GreedyDescent;
        }

        var (best, solutions) = (long.MaxValue, 0);
        void Found()
        {
            var cost = routing.CostVar().Min();
            if (cancel.IsCancellationRequested)
            {
                routing.solver().FinishCurrentSearch();
            }
            else if (cost < best)
            {
                best = cost;
                solutions++;
                progress?.Invoke(new SolverProgress(cost % PriceOfLeaving, (int)(cost / PriceOfLeaving), solutions));
            }
        }

        routing.AddAtSolutionCallback(Found);
        using var stop = cancel.Register(() => routing.CancelSearch());
        using var found = routing.SolveWithParameters(parameters);
        cancel.ThrowIfCancellationRequested();
        return found is null ? null : model.Read(found);
    }

    /// <summary>The question in the library's own terms, and its answer back in ours.</summary>
    private sealed class RoutingModelOf : IDisposable
    {
        private const string Time = "time", Load = "load", Order = "order", Home = "home";

        private readonly RoutingProblem problem;
        private readonly RoutingIndexManager manager;
        private readonly RoutingDimension time;

        public RoutingModelOf(RoutingProblem problem)
        {
            this.problem = problem;
            var (visits, vehicles) = (problem.Visits.Count, problem.Vehicles.Count);
            // The library's nodes: the visits, then a start and an end for each vehicle.
            manager = new RoutingIndexManager(
                visits + (2 * vehicles), vehicles, [.. Enumerable.Range(visits, vehicles)], [.. Enumerable.Range(visits + vehicles, vehicles)]);
            Routing = new RoutingModel(manager);
            var drive = Routing.RegisterTransitCallback((from, to) => DriveOf(NodeOf(from), NodeOf(to)));
            Routing.SetArcCostEvaluatorOfAllVehicles(drive);
            time = AddTime();
            AddLoad();
            AddVisits();
            if (problem.LongestOut is { } longest)
            {
                KeepOutOfWater(longest);
            }

            for (var v = 0; v < vehicles; v++)
            {
                // Back as early as the round allows, and then out as late: the eggs wait at the depot and not in the car.
                Routing.AddVariableMinimizedByFinalizer(time.CumulVar(Routing.End(v)));
                Routing.AddVariableMaximizedByFinalizer(time.CumulVar(Routing.Start(v)));
            }
        }

        public RoutingModel Routing { get; }

        public RoutingAnswer Read(Assignment found)
        {
            var routes = new List<RoutedVehicle>();
            var driven = 0L;
            for (var v = 0; v < problem.Vehicles.Count; v++)
            {
                var route = new List<(int, long)>();
                var index = Routing.Start(v);
                while (!Routing.IsEnd(index))
                {
                    var next = found.Value(Routing.NextVar(index));
                    driven += Routing.IsStart(index) && Routing.IsEnd(next) ? 0 : DriveOf(NodeOf(index), NodeOf(next));
                    if (!Routing.IsEnd(next))
                    {
                        route.Add((NodeOf(next), found.Min(time.CumulVar(next))));
                    }

                    index = next;
                }

                routes.Add(new RoutedVehicle(found.Min(time.CumulVar(Routing.Start(v))), route, found.Min(time.CumulVar(Routing.End(v)))));
            }

            var routed = routes.SelectMany(r => r.Visits.Select(p => p.Visit)).ToHashSet();
            return new RoutingAnswer(routes, [.. Enumerable.Range(0, problem.Visits.Count).Where(i => !routed.Contains(i))], driven);
        }

        public void Dispose()
        {
            Routing.Dispose();
            manager.Dispose();
        }

        private int NodeOf(long index) => manager.IndexToNode(index);

        private bool IsVisit(int node) => node < problem.Visits.Count;

        private int PlaceOf(int node)
        {
            var (visits, vehicles) = (problem.Visits.Count, problem.Vehicles.Count);
            return node < visits ? problem.Visits[node].At : node < visits + vehicles ? problem.Vehicles[node - visits].From : problem.Vehicles[node - visits - vehicles].To;
        }

        private long DriveOf(int from, int to) => problem.Drive[PlaceOf(from), PlaceOf(to)];

        private RoutingDimension AddTime()
        {
            var clock = Routing.RegisterTransitCallback((from, to) =>
                DriveOf(NodeOf(from), NodeOf(to)) + (IsVisit(NodeOf(from)) ? problem.Visits[NodeOf(from)].Service : 0));
            Routing.AddDimension(clock, problem.Horizon, problem.Horizon, false, Time);
            var dimension = Routing.GetDimensionOrDie(Time);
            foreach (var (v, vehicle) in problem.Vehicles.Index())
            {
                dimension.CumulVar(Routing.Start(v)).SetRange(vehicle.Earliest, vehicle.Latest);
                dimension.CumulVar(Routing.End(v)).SetRange(vehicle.Earliest, vehicle.Latest);
            }

            return dimension;
        }

        private void AddLoad()
        {
            var demand = Routing.RegisterUnaryTransitCallback(from => IsVisit(NodeOf(from)) ? problem.Visits[NodeOf(from)].Demand : 0);
            Routing.AddDimensionWithVehicleCapacity(demand, 0, [.. problem.Vehicles.Select(v => v.Capacity)], true, Load);
        }

        private void AddVisits()
        {
            var places = problem.Visits.Any(v => v.Place is not null) ? AddOrder() : null;
            foreach (var (i, visit) in problem.Visits.Index())
            {
                var index = manager.NodeToIndex(i);
                Routing.AddDisjunction([index], PriceOfLeaving);
                time.CumulVar(index).SetRange(visit.Earliest, visit.Latest);
                if (visit.Allowed is { } allowed)
                {
                    // -1 is no vehicle at all: a pinned visit may still be left out, and is then told.
                    Routing.VehicleVar(index).SetValues([-1, .. allowed.Select(v => (long)v)]);
                }

                if (visit.Place is { } place)
                {
                    places!.CumulVar(index).SetRange(place, place);
                }
            }
        }

        private RoutingDimension AddOrder()
        {
            var one = Routing.RegisterUnaryTransitCallback(_ => 1);
            // A place behind the last of all visits can be asked for and never be had: then the visit is left out.
            Routing.AddDimension(one, 0, Math.Max(problem.Visits.Count, problem.Visits.Max(v => v.Place ?? 0)) + 1, true, Order);
            return Routing.GetDimensionOrDie(Order);
        }

        private void KeepOutOfWater(long longest)
        {
            var home = Routing.RegisterTransitCallback((from, to) => IsVisit(NodeOf(from)) && !IsVisit(NodeOf(to)) ? DriveOf(NodeOf(from), NodeOf(to)) : 0);
            Routing.AddDimension(home, 0, problem.Horizon, true, Home);
            var way = Routing.GetDimensionOrDie(Home);
            var solver = Routing.solver();
            foreach (var (v, vehicle) in problem.Vehicles.Index())
            {
                var end = time.CumulVar(Routing.End(v)) - way.CumulVar(Routing.End(v));
                solver.Add(vehicle.LeftAt is { } left ? end <= left + longest : end - time.CumulVar(Routing.Start(v)) <= longest);
            }
        }
    }
}
