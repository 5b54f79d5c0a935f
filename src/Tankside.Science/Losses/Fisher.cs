namespace Tankside.Science.Losses;

/// <summary>Fisher's exact test of a two-by-two table, one-sided: are the marked ones crowded into the group?</summary>
/// <remarks>
/// N in all, K of them marked, n in the group: with nothing behind it the marked in the group are hypergeometric,
/// P(x) = C(K, x) C(N - K, n - x) / C(N, n), and the test's probability is the sum over x from the number seen to the most there can be.
/// Source: Fisher 1935, The Design of Experiments, chapter II (from memory). His lady tasting tea names at least 3 of 4 cups by guessing
/// with probability 17/70 (printed 0.2429 beside the R function of this name, seen): checked in tests, beside counting every possible draw.
/// </remarks>
public static class Fisher
{
    /// <summary>Probability of <paramref name="inGroup"/> or more marked ones in the group if the marks fell blindly; 1 for none.</summary>
    /// <param name="inGroup">Marked in the group.</param>
    /// <param name="group">The group's number, at least <paramref name="inGroup"/>.</param>
    /// <param name="inRest">Marked outside the group.</param>
    /// <param name="rest">The number outside, at least <paramref name="inRest"/>; with none outside nothing can be told, and the answer is 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative number, or more marked than there are.</exception>
    public static double UpperTail(int inGroup, int group, int inRest, int rest)
    {
        Counts(inGroup, group);
        Counts(inRest, rest);
        var marked = inGroup + inRest;
        var least = Math.Max(0, marked - rest);
        if (inGroup == least)
        {
            return 1;
        }

        // From the far end inwards, so that the smallest terms are added first.
        var sum = 0.0;
        for (var x = Math.Min(group, marked); x >= inGroup; x--)
        {
            sum += Math.Exp(LogChoose(marked, x) + LogChoose(group + rest - marked, group - x) - LogChoose(group + rest, group));
        }

        return Math.Min(1, sum);
    }

    private static void Counts(int marked, int of)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(marked);
        ArgumentOutOfRangeException.ThrowIfNegative(of);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(marked, of);
    }

    private static double LogChoose(int n, int k) =>
        SpecialFunctions.LogGamma(n + 1) - SpecialFunctions.LogGamma(k + 1) - SpecialFunctions.LogGamma(n - k + 1);
}
