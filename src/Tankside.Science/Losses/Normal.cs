using Tankside.Science.Units;

namespace Tankside.Science.Losses;

/// <summary>The standard normal distribution, to better than 1e-9. Textbook mathematics; checked on printed quantiles.</summary>
public static class Normal
{
    /// <summary>The 0.90 quantile: an 80% interval reaches this many standard deviations to either side.</summary>
    public const double EightyPercent = 1.2815515655446004;

    /// <summary>
    /// Probability that a standard normal value is <paramref name="z"/> or less. Any z; not-a-number gives itself.
    /// </summary>
    /// <param name="z">Standard deviations from the mean.</param>
    public static double Cdf(double z)
    {
        if (double.IsNaN(z)) return double.NaN;
        if (double.IsInfinity(z)) return z > 0 ? 1 : 0;
        var tail = 0.5 * SpecialFunctions.UpperGamma(0.5, z * z / 2);
        return z > 0 ? 1 - tail : tail;
    }

    /// <summary>
    /// The value that a standard normal stays under with probability <paramref name="p"/>. Throws unless 0 &lt; p &lt; 1.
    /// </summary>
    /// <remarks>Acklam's rational approximation (from memory) with two Halley steps on <see cref="Cdf"/>, which make it exact to
    /// double precision, so the approximation's own error does not matter.</remarks>
    /// <param name="p">Probability, above 0 and under 1.</param>
    public static double Quantile(double p)
    {
        Require.Share(p, nameof(p));

        // The lower tail keeps its digits; the upper one has lost them to 1 - p already.
        if (p > 0.5) return -Quantile(1 - p);
        var z = Approximate(p);
        for (var step = 0; step < 2; step++)
        {
            var error = (Cdf(z) - p) * Math.Sqrt(2 * Math.PI) * Math.Exp(z * z / 2);
            if (!double.IsFinite(error)) break;
            z -= error / (1 + (z * error / 2));
        }

        return z;
    }

    private static double Approximate(double p)
    {
        if (p < 0.02425)
        {
            var q = Math.Sqrt(-2 * Math.Log(p));
            return (((((((((-7.784894002430293e-03 * q) - 3.223964580411365e-01) * q) - 2.400758277161838) * q)
                - 2.549732539343734) * q) + 4.374664141464968) * q + 2.938163982698783)
                / ((((((((7.784695709041462e-03 * q) + 3.224671290700398e-01) * q) + 2.445134137142996) * q)
                + 3.754408661907416) * q) + 1);
        }

        var c = p - 0.5;
        var r = c * c;
        return (((((((((-3.969683028665376e+01 * r) + 2.209460984245205e+02) * r) - 2.759285104469687e+02) * r)
            + 1.383577518672690e+02) * r) - 3.066479806614716e+01) * r + 2.506628277459239) * c
            / (((((((((-5.447609879822406e+01 * r) + 1.615858368580409e+02) * r) - 1.556989798598866e+02) * r)
            + 6.680131188771972e+01) * r) - 1.328068155288572e+01) * r + 1);
    }
}
