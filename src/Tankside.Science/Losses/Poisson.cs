using Tankside.Science.Units;

namespace Tankside.Science.Losses;

/// <summary>Counts of rare events that know nothing of each other, such as machines that fail in a season.</summary>
/// <remarks>Textbook mathematics: P(X ≤ k) = Q(k + 1, mean), Q the regularised upper incomplete gamma function.</remarks>
public static class Poisson
{
    /// <summary>Probability of <paramref name="most"/> events or fewer.</summary>
    /// <param name="most">0 or more.</param>
    /// <param name="mean">Events expected, 0 or more.</param>
    public static double AtMost(int most, double mean)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(most);
        Require.NotNegative(mean, nameof(mean));
        return SpecialFunctions.UpperGamma(most + 1.0, mean);
    }

    /// <summary>The smallest number that is not exceeded with at least this probability.</summary>
    /// <param name="mean">Events expected, 0 or more.</param>
    /// <param name="cover">Probability, above 0 and under 1.</param>
    public static int SmallestCovering(double mean, double cover)
    {
        Require.Share(cover, nameof(cover));
        var number = 0;
        while (AtMost(number, mean) < cover)
        {
            number++;
        }

        return number;
    }

    /// <summary>
    /// The exact interval of the mean behind a count (Garwood 1936, Biometrika 28:437-442): the low end is the mean at which so many or more
    /// have probability (1 - confidence) / 2, the high end that at which so many or fewer have. It covers at least what it promises and is
    /// wide for few events. Divide both ends by the exposure for a rate.
    /// </summary>
    /// <param name="events">Events counted, 0 or more.</param>
    /// <param name="confidence">Above 0 and under 1; 0.95 if left out.</param>
    public static (double Low, double High) Interval(int events, double confidence = 0.95)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(events);
        var tail = (1 - Require.Share(confidence, nameof(confidence))) / 2;
        var low = events == 0 ? 0 : Solve(mean => 1 - AtMost(events - 1, mean) - tail, events);
        return (low, Solve(mean => tail - AtMost(events, mean), events + 1));
    }

    /// <summary>Where a function that rises through zero does so, above 0.</summary>
    private static double Solve(Func<double, double> rising, double about)
    {
        var (low, high) = (0.0, about + 1);
        while (rising(high) < 0)
        {
            high *= 2;
        }

        for (var i = 0; i < 200 && high - low > 1e-12 * high; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = rising(middle) < 0 ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }
}
