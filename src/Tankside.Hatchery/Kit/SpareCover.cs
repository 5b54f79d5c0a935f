using Tankside.Science.Losses;

namespace Tankside.Hatchery.Kit;

/// <summary>How many spares are enough, and for what share of seasons or storms.</summary>
/// <param name="Expected">Pieces expected to be away at one time, the mean of the Poisson count.</param>
/// <param name="Needed">The smallest number that covers, before depots are thought of.</param>
/// <param name="Number">The same, but at least one a depot.</param>
/// <param name="Cover">Share of seasons, or storms, in which <paramref name="Number"/> is enough at any one moment.</param>
public sealed record SpareCover(double Expected, int Needed, int Number, double Cover)
{
    /// <summary>
    /// Through a season: tanks x failures a season x weeks of repair / weeks of the season are away at any one time, counted as Poisson:
    /// failures know nothing of each other and a repair begins at once. A bad batch breaks that, so look at the failures by batch too.
    /// </summary>
    public static SpareCover Season(int tanks, double failuresASeason, double repairWeeks, double seasonWeeks, int depots, double cover) =>
        Of(tanks * failuresASeason * repairWeeks / seasonWeeks, depots, cover);

    /// <summary>Before a storm: a share of the tanks loses its chiller or pump in one night, and nothing is repaired before it is over.</summary>
    public static SpareCover Storm(int tanks, double share, int depots, double cover) => Of(tanks * share, depots, cover);

    /// <summary>The cover that a number in hand gives.</summary>
    public double CoverOf(int spares) => Poisson.AtMost(spares, Expected);

    private static SpareCover Of(double expected, int depots, double cover)
    {
        var needed = Poisson.SmallestCovering(expected, cover);
        var number = Math.Max(needed, depots);
        return new SpareCover(expected, needed, number, Poisson.AtMost(number, expected));
    }
}
