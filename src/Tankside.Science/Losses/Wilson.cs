using Tankside.Science.Units;

namespace Tankside.Science.Losses;

/// <summary>The Wilson score interval of a proportion.</summary>
/// <remarks>
/// p = alive / of, z the normal quantile: centre (p + z²/2n) / (1 + z²/n), half-width z sqrt(p(1-p)/n + z²/4n²) / (1 + z²/n),
/// without continuity correction. Source: Wilson 1927; recommended and tabled by Newcombe 1998, Statistics in Medicine
/// 17:857-872, method 3 (second-hand copy of his table I). It stays inside 0 to 1 and holds near the ends, where the
/// normal interval does not. It treats the fish as independent; fish that share water die together, so real spread is wider.
/// </remarks>
public static class Wilson
{
    /// <summary>The interval of the true proportion.</summary>
    /// <param name="alive">How many survived, 0 to <paramref name="of"/>.</param>
    /// <param name="of">Out of how many, 1 or more.</param>
    /// <param name="confidence">Confidence, above 0 and under 1; 0.95 if left out.</param>
    /// <returns>Low and high end as fractions, 0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count or the confidence is outside its range.</exception>
    public static (double Low, double High) Interval(long alive, long of, double confidence = 0.95)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(of);
        ArgumentOutOfRangeException.ThrowIfNegative(alive);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(alive, of);
        var z = Normal.Quantile(0.5 + (Require.Share(confidence, nameof(confidence)) / 2));
        double n = of;
        var p = alive / n;
        var shrink = 1 + (z * z / n);
        var centre = (p + (z * z / (2 * n))) / shrink;
        var half = z * Math.Sqrt((p * (1 - p) / n) + (z * z / (4 * n * n))) / shrink;

        // The ends are exact in theory; rounding must not turn none lost into 0.9999.
        return (alive == 0 ? 0 : Math.Max(0, centre - half), alive == of ? 1 : Math.Min(1, centre + half));
    }
}
