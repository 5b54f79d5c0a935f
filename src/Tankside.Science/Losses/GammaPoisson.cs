using Tankside.Science.Units;

namespace Tankside.Science.Losses;

/// <summary>
/// Counts of losses with a rate that differs from vessel to vessel: Poisson counts whose rate is gamma distributed.
/// </summary>
/// <remarks>
/// Rate r ~ Gamma(shape, rate), mean shape / rate losses per unit of exposure (for example fish-days); count given r is Poisson
/// with mean r x exposure; the count alone is then negative binomial. Textbook mathematics (for example Gelman and others,
/// Bayesian Data Analysis; from memory), checked in tests against direct summation. Shape, rate and exposure are positive and
/// finite, or the functions throw.
/// </remarks>
public static class GammaPoisson
{
    /// <summary>The largest shape that <see cref="FitMoments"/> gives: siblings that look alike are still allowed a 10% spread.
    /// No source: chosen here.</summary>
    public const double MostShape = 100;

    /// <summary>
    /// Probability of seeing <paramref name="observed"/> losses or more: I_q(observed, shape), q = exposure / (rate + exposure),
    /// I the regularised incomplete beta function. 1 for none observed; also 1 for no exposure and none observed, 0 for no
    /// exposure and some.
    /// </summary>
    /// <param name="shape">Shape of the rate's distribution.</param>
    /// <param name="rate">Rate parameter, in units of exposure.</param>
    /// <param name="exposure">Exposure in which the losses fell, 0 or more.</param>
    /// <param name="observed">Losses counted, 0 or more.</param>
    public static double UpperTail(double shape, double rate, double exposure, int observed)
    {
        Require.Positive(shape, nameof(shape));
        Require.Positive(rate, nameof(rate));
        Require.NotNegative(exposure, nameof(exposure));
        ArgumentOutOfRangeException.ThrowIfNegative(observed);
        return observed == 0 ? 1 : SpecialFunctions.Beta(exposure / (rate + exposure), observed, shape);
    }

    /// <summary>What is believed of the rate after a count: shape + events, rate + exposure.</summary>
    /// <param name="shape">Shape before.</param>
    /// <param name="rate">Rate parameter before, in units of exposure.</param>
    /// <param name="events">Losses counted, 0 or more.</param>
    /// <param name="exposure">Exposure in which they fell, 0 or more.</param>
    public static (double Shape, double Rate) Posterior(double shape, double rate, int events, double exposure)
    {
        Require.Positive(shape, nameof(shape));
        Require.Positive(rate, nameof(rate));
        ArgumentOutOfRangeException.ThrowIfNegative(events);
        Require.NotNegative(exposure, nameof(exposure));
        return (shape + events, rate + exposure);
    }

    /// <summary>
    /// Shape and rate from siblings' counts, by moments: the mean is all losses over all exposure, the variance between them what
    /// is left of the weighted scatter after the Poisson part. Where nothing is left (or there is one sibling) the shape is
    /// <see cref="MostShape"/>; it is never under 0.1. With no losses at all, half a loss over the whole exposure is taken
    /// (shape 0.5). Those three bounds have no source: chosen here.
    /// </summary>
    /// <param name="siblings">Losses and exposure of each; exposures 0 or more, at least one above 0.</param>
    /// <exception cref="ArgumentException">No exposure at all.</exception>
    public static (double Shape, double Rate) FitMoments(IReadOnlyList<(int Events, double Exposure)> siblings)
    {
        foreach (var (events, exposure) in siblings)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(events, nameof(siblings));
            Require.NotNegative(exposure, nameof(siblings));
        }

        var seen = siblings.Where(s => s.Exposure > 0).ToArray();
        var total = seen.Sum(s => s.Exposure);
        if (total <= 0) throw new ArgumentException("There is no exposure to learn from.", nameof(siblings));
        var losses = seen.Sum(s => (double)s.Events);
        if (losses == 0) return (0.5, total);
        var mean = losses / total;
        var scatter = seen.Sum(s => s.Exposure * Math.Pow((s.Events / s.Exposure) - mean, 2));
        var free = total - (seen.Sum(s => s.Exposure * s.Exposure) / total);
        var between = free > 0 ? (scatter - ((seen.Length - 1) * mean)) / free : 0;
        var shape = between > 0 ? Math.Clamp(mean * mean / between, 0.1, MostShape) : MostShape;
        return (shape, shape / mean);
    }
}
