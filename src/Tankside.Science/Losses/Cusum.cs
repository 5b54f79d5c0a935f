using Tankside.Science.Units;

namespace Tankside.Science.Losses;

/// <summary>The two running sums of a cumulative sum chart: how far above and how far below target, less the slack.</summary>
/// <param name="High">0 or more.</param>
/// <param name="Low">0 or more.</param>
public readonly record struct CusumSums(double High, double Low);

/// <summary>The tabular cumulative sum chart: small lasting shifts add up until they show.</summary>
/// <remarks>
/// High(i) = max(0, High(i-1) + x(i) - target - slack), Low(i) = max(0, Low(i-1) + target - slack - x(i)). Source: Page 1954 (from memory);
/// worked in the NIST/SEMATECH e-Handbook 6.3.2.3 and in Montgomery and Runger, Applied Statistics and Probability for Engineers,
/// example 16-6. Both tables are checked in tests. Values are finite and slacks 0 or more, or it throws.
/// </remarks>
public static class Cusum
{
    /// <summary>The sums before the first value.</summary>
    public static readonly CusumSums Start = new(0, 0);

    /// <summary>The sums after one more value.</summary>
    /// <param name="before">Sums so far.</param>
    /// <param name="value">The new value.</param>
    /// <param name="target">Where the value should lie.</param>
    /// <param name="slack">What it may lie off without counting: usually half the shift that has to be found.</param>
    public static CusumSums Next(CusumSums before, double value, double target, double slack)
    {
        var above = Require.Finite(value, nameof(value)) - Require.Finite(target, nameof(target));
        Require.NotNegative(slack, nameof(slack));
        return new(Math.Max(0, before.High + above - slack), Math.Max(0, before.Low - above - slack));
    }

    /// <summary>
    /// The slack for counts of which <paramref name="expected"/> are usual, when a rate <paramref name="times"/> as high has to be found:
    /// expected x ((times - 1) / ln times - 1). With it the high sum is, but for a factor, the running likelihood ratio of the two Poisson
    /// rates (Lucas 1985, Technometrics 27:129-144, from memory; checked in tests against the ratio itself).
    /// </summary>
    /// <param name="expected">Usual count over the same exposure, 0 or more.</param>
    /// <param name="times">How many times the usual rate has to be found; above 1.</param>
    public static double CountSlack(double expected, double times)
    {
        Require.NotNegative(expected, nameof(expected));
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(Require.Finite(times, nameof(times)), 1);
        return expected * (((times - 1) / Math.Log(times)) - 1);
    }
}
