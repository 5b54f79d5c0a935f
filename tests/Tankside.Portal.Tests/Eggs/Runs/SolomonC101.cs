using Tankside.Portal.Eggs.Runs.Planning;

namespace Tankside.Portal.Tests.Eggs.Runs;

/// <summary>
/// Instance C101 with its first 25 customers of M. M. Solomon, "Algorithms for the vehicle routing and scheduling problems with time window
/// constraints", Operations Research 35 (1987) 254-265: 25 vehicles of capacity 200. By Solomon's own convention distances are Euclidean and cut
/// after the first decimal; the least distance then is 191.3 with three vehicles (N. Kohl, J. Desrosiers, O. B. G. Madsen, M. M. Solomon,
/// F. Soumis, "2-path cuts for the vehicle routing problem with time windows", Transportation Science 33 (1999) 101-116).
/// </summary>
internal static class SolomonC101
{
    public const double BestKnown = 191.3;

    private const int Vehicles = 25, Capacity = 200, Tenths = 10;

    /// <summary>x, y, demand, ready, due, service; the depot first.</summary>
    private static readonly int[][] Rows =
    [
        [40, 50, 0, 0, 1236, 0],
        [45, 68, 10, 912, 967, 90],
        [45, 70, 30, 825, 870, 90],
        [42, 66, 10, 65, 146, 90],
        [42, 68, 10, 727, 782, 90],
        [42, 65, 10, 15, 67, 90],
        [40, 69, 20, 621, 702, 90],
        [40, 66, 20, 170, 225, 90],
        [38, 68, 20, 255, 324, 90],
        [38, 70, 10, 534, 605, 90],
        [35, 66, 10, 357, 410, 90],
        [35, 69, 10, 448, 505, 90],
        [25, 85, 20, 652, 721, 90],
        [22, 75, 30, 30, 92, 90],
        [22, 85, 10, 567, 620, 90],
        [20, 80, 40, 384, 429, 90],
        [20, 85, 40, 475, 528, 90],
        [18, 75, 20, 99, 148, 90],
        [15, 75, 20, 179, 254, 90],
        [15, 80, 10, 278, 345, 90],
        [30, 50, 10, 10, 73, 90],
        [30, 52, 20, 914, 965, 90],
        [28, 52, 20, 812, 883, 90],
        [28, 55, 10, 732, 777, 90],
        [25, 50, 10, 65, 144, 90],
        [25, 52, 40, 169, 224, 90],
    ];

    /// <summary>In tenths, so that the numbers stay whole.</summary>
    public static RoutingProblem Problem()
    {
        var drive = new long[Rows.Length, Rows.Length];
        for (var from = 0; from < Rows.Length; from++)
        {
            for (var to = 0; to < Rows.Length; to++)
            {
                drive[from, to] = (long)(Tenths * Math.Sqrt(Squared(from, to, 0) + Squared(from, to, 1)));
            }
        }

        var end = Rows[0][4] * Tenths;
        return new RoutingProblem(
            drive,
            [.. Rows.Index().Skip(1).Select(r => new RoutingVisit(r.Index, r.Item[2], r.Item[3] * Tenths, r.Item[4] * Tenths, r.Item[5] * Tenths))],
            [.. Enumerable.Repeat(new RoutingVehicle(0, 0, Capacity, 0, end), Vehicles)],
            end);
    }

    private static double Squared(int from, int to, int axis) => Math.Pow(Rows[from][axis] - Rows[to][axis], 2);
}
