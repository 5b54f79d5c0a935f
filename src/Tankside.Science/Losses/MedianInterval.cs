namespace Tankside.Science.Losses;

/// <summary>The median of a sample and an interval for the median of what it was drawn from, without any assumption on its shape.</summary>
/// <remarks>
/// Of n values in order, the k-th smallest and the k-th largest enclose the true median with probability 1 - 2 P(X &lt; k), X binomial (n, 1/2).
/// The largest k that keeps the confidence is taken. Under six values no such interval reaches 95%. Source: textbook mathematics (Conover,
/// Practical Nonparametric Statistics, sign test), from memory; the usual table gives the 2nd and 9th of 10 and the 6th and 15th of 20.
/// </remarks>
public static class MedianInterval
{
    /// <param name="values">The sample in any order; null comes back for none.</param>
    /// <param name="confidence">At least this confidence, above 0 and under 1; 0.95 if left out.</param>
    /// <returns>The middle value, and the ends of its interval, null where the sample is too small for one.</returns>
    public static (double Median, double? Low, double? High)? Of(IReadOnlyCollection<double> values, double confidence = 0.95)
    {
        if (values.Count == 0)
        {
            return null;
        }

        var sorted = values.Order().ToArray();
        var n = sorted.Length;
        var median = (sorted[(n - 1) / 2] + sorted[n / 2]) / 2;
        var rank = 0;
        while (rank < n / 2 && 2 * (1 - Binomial.UpperTail(rank + 1, n, 0.5)) <= 1 - Units.Require.Share(confidence, nameof(confidence)))
        {
            rank++;
        }

        return rank == 0 ? (median, null, null) : (median, sorted[rank - 1], sorted[n - rank]);
    }
}
