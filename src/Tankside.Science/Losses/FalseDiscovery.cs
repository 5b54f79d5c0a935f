using Tankside.Science.Units;

namespace Tankside.Science.Losses;

/// <summary>Many questions asked at once: what each answer's probability is worth when the others are counted in.</summary>
/// <remarks>
/// Benjamini and Hochberg 1995, J. R. Stat. Soc. B 57:289-300: with the m probabilities ascending, the adjusted k-th is the smallest of
/// m p(j) / j over j from k on, never above 1. Taking those at or under q keeps the expected share of false ones among them at q or less,
/// for independent questions and for ones that go up together. Checked in tests on the fifteen probabilities of their worked example
/// (second-hand copy), of which four pass at 0.05.
/// </remarks>
public static class FalseDiscovery
{
    /// <summary>The adjusted probabilities, in the order given.</summary>
    /// <param name="probabilities">Each 0 to 1; may be empty.</param>
    /// <exception cref="ArgumentOutOfRangeException">One is outside 0 to 1.</exception>
    public static IReadOnlyList<double> Adjust(IReadOnlyList<double> probabilities)
    {
        foreach (var p in probabilities)
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThan(Require.NotNegative(p, nameof(probabilities)), 1, nameof(probabilities));
        }

        var adjusted = new double[probabilities.Count];
        var smallest = 1.0;
        var place = probabilities.Count;
        foreach (var index in Enumerable.Range(0, probabilities.Count).OrderByDescending(i => probabilities[i]))
        {
            smallest = Math.Min(smallest, probabilities[index] * probabilities.Count / place--);
            adjusted[index] = smallest;
        }

        return adjusted;
    }
}
