using Tankside.Portal.Eggs.Runs.Planning;

namespace Tankside.Portal.Tests.Eggs.Runs;

/// <summary>The solver as we ask it, against an instance that the literature has solved.</summary>
public class PublishedInstanceTests
{
    [Fact]
    public void Solomons_C101_with_25_customers_is_solved_within_five_percent_of_the_best_known()
    {
        var problem = SolomonC101.Problem();

        var answer = RoutingSolver.Solve(problem, new SolverEffort(TimeSpan.FromSeconds(2)), null, CancellationToken.None)!;

        Assert.Empty(answer.Left);
        AssertKept(problem, answer);
        Assert.InRange(answer.Driven / 10.0, SolomonC101.BestKnown, SolomonC101.BestKnown * 1.05);
    }

    /// <summary>Reckoned through without the solver.</summary>
    private static void AssertKept(RoutingProblem problem, RoutingAnswer answer)
    {
        var driven = 0L;
        foreach (var (route, vehicle) in answer.Routes.Zip(problem.Vehicles).Where(r => r.First.Visits.Count > 0))
        {
            Assert.True(route.Visits.Sum(v => problem.Visits[v.Visit].Demand) <= vehicle.Capacity);
            var (place, free) = (vehicle.From, route.Leaves);
            foreach (var (number, begins) in route.Visits)
            {
                var visit = problem.Visits[number];
                driven += problem.Drive[place, visit.At];
                Assert.InRange(begins, Math.Max(visit.Earliest, free + problem.Drive[place, visit.At]), visit.Latest);
                (place, free) = (visit.At, begins + visit.Service);
            }

            driven += problem.Drive[place, vehicle.To];
            Assert.InRange(route.Back, free + problem.Drive[place, vehicle.To], vehicle.Latest);
        }

        Assert.Equal(driven, answer.Driven);
        Assert.Equal(problem.Visits.Count, answer.Routes.SelectMany(r => r.Visits.Select(v => v.Visit)).Distinct().Count());
    }
}
