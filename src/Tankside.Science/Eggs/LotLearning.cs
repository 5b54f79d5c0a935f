using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>
/// What the seen hatches of some vessels say of the error that all vessels of the same eggs share: a normal prior, normal looks, a normal
/// answer.
/// </summary>
/// <remarks>
/// <para>Symbols: u the shared error in ln D (the rule's own, and the fraction at which all of them were delivered), u ~ N(0, S²); x what is
/// added outside the range of the rule's source, x ~ N(0, X²), taken as common to all vessels out there; r the vessel's own. A look is
/// y = u + [x if outside] + r, r ~ N(0, <see cref="HatchLook.OwnSd"/>² + <see cref="HatchLook.OtherSd"/>²). With looks inside the range
/// alone the answer is the textbook one: 1/V = 1/S² + Σ 1/R, mean = V Σ y/R.</para>
/// <para>One wild look (a wrong tick) must not move a lot. Of three looks or more, the one farthest from what the others foretell is set
/// aside when it lies more than <see cref="WildSds"/> standard deviations from it, and so on; one or two are also held against the prior,
/// and two that contradict each other teach nothing until a third decides. So a lot whose dates were wrong by weeks is believed as soon as
/// three vessels agree on it. Three standard deviations is a choice: it loses 1 good look in 370.</para>
/// <para>Textbook mathematics; checked by hand and by simulation.</para>
/// </remarks>
public sealed class LotLearning
{
    /// <summary>How far from what is foretold a look may lie, in standard deviations.</summary>
    public const double WildSds = 3;

    private readonly IReadOnlyList<HatchLook> looks;
    private readonly NormalPair known;

    private LotLearning(IReadOnlyList<HatchLook> looks, NormalPair prior)
    {
        this.looks = looks;
        Used = Believed(looks, prior);
        SetAside = [.. Enumerable.Range(0, looks.Count).Except(Used)];
        known = Used.Aggregate(prior, (k, i) => k.With(looks[i]));
    }

    /// <summary>Indices of the looks that count.</summary>
    public IReadOnlyList<int> Used { get; }

    /// <summary>Indices of the looks too far from all else.</summary>
    public IReadOnlyList<int> SetAside { get; }

    /// <param name="sharedSd">S, ln D; above 0.</param>
    /// <param name="outsideSd">X, ln D; above 0.</param>
    /// <param name="looks">One a vessel.</param>
    public static LotLearning From(double sharedSd, double outsideSd, IReadOnlyList<HatchLook> looks)
    {
        foreach (var look in looks)
        {
            Require.Finite(look.LogFraction, nameof(looks));
            Require.Positive(look.Variance, nameof(looks));
        }

        return new LotLearning(
            looks, NormalPair.Prior(Require.Positive(sharedSd, nameof(sharedSd)), Require.Positive(outsideSd, nameof(outsideSd))));
    }

    /// <summary>The error of the hatch that a vessel not seen yet shares with the others, its own not counted.</summary>
    /// <param name="outsideRange">Whether its water lies outside the range.</param>
    public LogError Shared(bool outsideRange) => Carried(1, outsideRange ? 1 : 0, null);

    /// <summary>
    /// What is known of a x u + b x x + o, o being the own error of the vessel that one of the looks is of: the error of a later stage as
    /// far as the hatch foretells it. The part of that vessel's look that the shared error leaves over is its own, by
    /// <see cref="HatchLook.OwnSd"/>² in <see cref="HatchLook.OwnSd"/>² + <see cref="HatchLook.OtherSd"/>².
    /// </summary>
    /// <param name="shared">a.</param>
    /// <param name="outside">b.</param>
    /// <param name="own">Index of the vessel's look; null, or one that was set aside, adds no own error.</param>
    public LogError Carried(double shared, double outside, int? own)
    {
        if (own is not { } i || !Used.Contains(i)) return known.Of(shared, outside);
        var look = looks[i];
        var gain = look.OwnSd * look.OwnSd / look.Variance;
        var rest = known.Of(shared - gain, outside - (look.OutsideRange ? gain : 0));
        var left = gain * look.OtherSd * look.OtherSd;
        return new LogError(rest.Mean + (gain * look.LogFraction), Math.Sqrt((rest.Sd * rest.Sd) + left));
    }

    private static List<int> Believed(IReadOnlyList<HatchLook> looks, NormalPair prior)
    {
        List<int> used = [.. Enumerable.Range(0, looks.Count)];
        while (used.Count > 2)
        {
            var all = used.Aggregate(prior, (k, i) => k.With(looks[i]));
            var worst = used.MaxBy(i => all.Without(looks[i]).Surprise(looks[i]));
            if (all.Without(looks[worst]).Surprise(looks[worst]) <= WildSds) return used;
            used.Remove(worst);
        }

        used.RemoveAll(i => prior.Surprise(looks[i]) > WildSds);
        var contradict = used.Count == 2 && used.Any(i => prior.With(looks[used[0] + used[1] - i]).Surprise(looks[i]) > WildSds);
        return contradict ? [] : used;
    }

    /// <summary>u and x as a normal pair, kept as precision so that a look can be taken out again.</summary>
    private readonly record struct NormalPair(double Uu, double Ux, double Xx, double Bu, double Bx)
    {
        public static NormalPair Prior(double sharedSd, double outsideSd) =>
            new(1 / (sharedSd * sharedSd), 0, 1 / (outsideSd * outsideSd), 0, 0);

        public NormalPair With(HatchLook look) => Plus(look, 1 / look.Variance);

        public NormalPair Without(HatchLook look) => Plus(look, -1 / look.Variance);

        public LogError Of(double u, double x)
        {
            var det = (Uu * Xx) - (Ux * Ux);
            var (vu, vx, vux) = (Xx / det, Uu / det, -Ux / det);
            var mean = (u * ((vu * Bu) + (vux * Bx))) + (x * ((vux * Bu) + (vx * Bx)));
            return new LogError(mean, Math.Sqrt(Math.Max(0, (u * u * vu) + (2 * u * x * vux) + (x * x * vx))));
        }

        /// <summary>How many standard deviations a look lies from what is foretold of it.</summary>
        public double Surprise(HatchLook look)
        {
            var told = Of(1, look.OutsideRange ? 1 : 0);
            return Math.Abs(look.LogFraction - told.Mean) / Math.Sqrt((told.Sd * told.Sd) + look.Variance);
        }

        private NormalPair Plus(HatchLook look, double weight)
        {
            var x = look.OutsideRange ? weight : 0;
            return new(Uu + weight, Ux + x, Xx + x, Bu + (weight * look.LogFraction), Bx + (x * look.LogFraction));
        }
    }
}
