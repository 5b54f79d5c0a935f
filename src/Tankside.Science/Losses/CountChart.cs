namespace Tankside.Science.Losses;

/// <summary>The chart of a count among a fixed number, such as the dead of one day among the eggs of each tank.</summary>
/// <remarks>
/// Centre n p, limits three standard deviations sqrt(n p (1 - p)) from it, never under 0 or over n. Textbook (Shewhart, np chart); checked
/// in tests on fifty lots of two hundred wafers, published with the centre and limits that another program gave. Normal limits are rough
/// where few are lost: alarms stand on the exact tails of <see cref="Binomial"/> and <see cref="GammaPoisson"/> instead.
/// </remarks>
public static class CountChart
{
    /// <summary>Lower limit, centre and upper limit from past counts.</summary>
    /// <param name="counts">Counts, each 0 to <paramref name="of"/>, at least one.</param>
    /// <param name="of">Out of how many each, 1 or more.</param>
    /// <exception cref="ArgumentException">No counts, or one outside its range.</exception>
    public static (double Low, double Centre, double High) Limits(IReadOnlyCollection<int> counts, int of)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(of);
        if (counts.Count == 0) throw new ArgumentException("There is nothing to learn limits from.", nameof(counts));
        ArgumentOutOfRangeException.ThrowIfNegative(counts.Min(), nameof(counts));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(counts.Max(), of, nameof(counts));
        var centre = counts.Average();
        var reach = 3 * Math.Sqrt(centre * (1 - (centre / of)));
        return (Math.Max(0, centre - reach), centre, Math.Min(of, centre + reach));
    }
}
