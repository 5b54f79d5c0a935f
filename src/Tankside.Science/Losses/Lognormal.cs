using Tankside.Science.Units;

namespace Tankside.Science.Losses;

/// <summary>The log-normal distribution of a positive quantity such as hours left. Textbook mathematics.</summary>
public static class Lognormal
{
    /// <summary>
    /// Mean and standard deviation of the logarithm from an 80% band: mu = ln mid, sigma = ln(high / low) / (2 x 1.2816).
    /// Low and mid must be positive and in order, or it throws.
    /// </summary>
    /// <param name="eightyPercent">The band; its unit is the quantity's.</param>
    public static (double Mu, double Sigma) FromBand(Band eightyPercent)
    {
        var (low, mid, high) = eightyPercent;
        if (!(low > 0 && mid >= low && high >= mid && double.IsFinite(high)))
            throw new ArgumentOutOfRangeException(nameof(eightyPercent), eightyPercent, "Ends must be positive and in order.");
        return (Math.Log(mid), Math.Log(high / low) / (2 * Normal.EightyPercent));
    }

    /// <summary>Probability of <paramref name="x"/> or less. 0 at and under zero; a step at exp(mu) when sigma is 0.</summary>
    /// <param name="x">Value, in the quantity's unit.</param>
    /// <param name="mu">Mean of the logarithm.</param>
    /// <param name="sigma">Standard deviation of the logarithm, 0 or more; throws when negative.</param>
    public static double Cdf(double x, double mu, double sigma)
    {
        Require.NotNegative(sigma, nameof(sigma));
        if (x <= 0) return 0;
        var distance = Math.Log(x) - mu;
        return sigma == 0 ? (distance >= 0 ? 1 : 0) : Normal.Cdf(distance / sigma);
    }
}
