namespace Tankside.Science.Losses;

/// <summary>
/// What is known of a share as a beta distribution, and how many of a number will then be counted: the beta-binomial distribution.
/// </summary>
/// <remarks>
/// P(k of n) = C(n, k) B(k + a, n - k + b) / B(a, b). Source: Johnson, Kemp and Kotz, Univariate Discrete Distributions, 3rd ed. 2005,
/// section 6.2.2 (from memory). Mean n a / (a + b).
/// </remarks>
/// <param name="A">Above 0.</param>
/// <param name="B">Above 0.</param>
public readonly record struct BetaShare(double A, double B)
{
    /// <summary>The mean share.</summary>
    public double Mean => A / (A + B);

    /// <summary>The chance that at least <paramref name="k"/> of <paramref name="n"/> are counted.</summary>
    /// <param name="k">0 and below is certain, above n impossible.</param>
    /// <param name="n">How many, 0 or more.</param>
    public double AtLeast(int k, int n)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(n);
        if (k <= 0) return 1;
        if (k > n) return 0;
        var chances = Chances(n);
        var tail = 0.0;
        for (var i = n; i >= k; i--) tail += chances[i];
        return Math.Min(1, tail);
    }

    /// <summary>The smallest count whose distribution function reaches <paramref name="p"/>.</summary>
    /// <param name="p">Between 0 and 1.</param>
    /// <param name="n">How many, 0 or more.</param>
    public int Quantile(double p, int n)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(n);
        var chances = Chances(n);
        var sum = 0.0;
        for (var i = 0; i < n; i++)
        {
            sum += chances[i];
            if (sum >= p) return i;
        }

        return n;
    }

    /// <summary>The chance of each count from 0 to n.</summary>
    private double[] Chances(int n)
    {
        if (!(A > 0) || !(B > 0)) throw new InvalidOperationException("A and B must be above 0.");

        // Each from the one before, in logarithms so that nothing is lost at the ends, then brought to a sum of 1.
        var logs = new double[n + 1];
        for (var k = 0; k < n; k++)
        {
            logs[k + 1] = logs[k] + Math.Log((n - k) / (k + 1.0)) + Math.Log((k + A) / (n - k - 1 + B));
        }

        var top = logs.Max();
        var chances = Array.ConvertAll(logs, log => Math.Exp(log - top));
        var sum = chances.Sum();
        return Array.ConvertAll(chances, c => c / sum);
    }
}
