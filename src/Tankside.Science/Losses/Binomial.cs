using Tankside.Science.Units;

namespace Tankside.Science.Losses;

/// <summary>How many of n meet something that each meets with the same probability, independently.</summary>
/// <remarks>
/// P(X ≥ k) = I_p(k, n - k + 1), I the regularised incomplete beta function. Textbook mathematics (Abramowitz and Stegun 26.5.24, from
/// memory), checked in tests against direct summation.
/// </remarks>
public static class Binomial
{
    /// <summary>Probability of <paramref name="atLeast"/> or more among <paramref name="of"/>; 1 for none.</summary>
    /// <param name="atLeast">Number seen, 0 to <paramref name="of"/>.</param>
    /// <param name="of">Out of how many, 0 or more.</param>
    /// <param name="probability">Each one's probability, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number or the probability is outside its range.</exception>
    public static double UpperTail(int atLeast, int of, double probability)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(atLeast);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(atLeast, of);
        Require.NotNegative(probability, nameof(probability));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(probability, 1);
        return atLeast == 0 ? 1 : SpecialFunctions.Beta(probability, atLeast, of - atLeast + 1);
    }
}
