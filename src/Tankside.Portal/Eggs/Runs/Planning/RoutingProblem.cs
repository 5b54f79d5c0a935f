namespace Tankside.Portal.Eggs.Runs.Planning;

/// <summary>
/// A routing question in bare numbers, as a solver takes it and as the literature states it. Times and costs are whole numbers of whatever unit.
/// Places come first, then nothing: a visit, a start and an end each name a place by its number.
/// </summary>
/// <param name="Drive">Time from place to place; it is also what is to be made small.</param>
/// <param name="LongestOut">From leaving the start to the end of each visit; null where nothing spoils.</param>
public sealed record RoutingProblem(
    long[,] Drive, IReadOnlyList<RoutingVisit> Visits, IReadOnlyList<RoutingVehicle> Vehicles, long Horizon, long? LongestOut = null);

/// <param name="Earliest">First moment at which the visit may begin; before it the vehicle waits.</param>
/// <param name="Latest">Last moment at which it may begin.</param>
/// <param name="Allowed">Vehicles that may come; null for all.</param>
/// <param name="Place">The visit's position in its route, from 1; null for any.</param>
public sealed record RoutingVisit(int At, long Demand, long Earliest, long Latest, long Service, IReadOnlyList<int>? Allowed = null, int? Place = null);

/// <param name="LeftAt">Set when it is out already: the time on the way has run since then.</param>
public sealed record RoutingVehicle(int From, int To, long Capacity, long Earliest, long Latest, long? LeftAt = null);

/// <param name="Routes">A route for each vehicle: visits by their number, with when each begins; when the start is left and the end reached.</param>
/// <param name="Left">Visits in no route.</param>
public sealed record RoutingAnswer(IReadOnlyList<RoutedVehicle> Routes, IReadOnlyList<int> Left, long Driven);

public sealed record RoutedVehicle(long Leaves, IReadOnlyList<(int Visit, long Begins)> Visits, long Back);

/// <summary>How hard to look.</summary>
/// <param name="Longest">After this the best found so far is the answer; zero for the first good one, improved until no single change helps.</param>
public readonly record struct SolverEffort(TimeSpan Longest)
{
    public static readonly SolverEffort Quick = new(TimeSpan.Zero);
}

/// <summary>How far a search is: the best so far, and how often it became better.</summary>
public sealed record SolverProgress(long Driven, int Left, int Solutions);
