using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>One vessel and one of its stages, for which the seen hatches of its eggs are to speak.</summary>
public sealed record LearningVessel
{
    /// <summary>The rule by which the hatches were reckoned.</summary>
    public required StageModel Hatch { get; init; }

    /// <summary>The rule for the stage asked about: the same, or that of swim-up.</summary>
    public required StageModel Stage { get; init; }

    /// <summary>Standard deviation of the fraction to hatch at the start, shared by all vessels of the eggs.</summary>
    public double HatchStartSd { get; init; }

    /// <summary>The same error in the fraction to the stage.</summary>
    public double StageStartSd { get; init; }

    /// <summary>Standard deviation of ln D of this vessel alone.</summary>
    public double OwnSd { get; init; }

    /// <summary>Whether its water lies outside the range of the hatch's rule.</summary>
    public bool HatchOutside { get; init; }

    /// <summary>Whether its water lies outside the range of the stage's rule.</summary>
    public bool StageOutside { get; init; }
}

/// <summary>What is learned of a stage: how much more development than 1 it takes, and how wide two of the named causes stay.</summary>
/// <param name="Fraction">The fraction, by the rule alone, at which the stage is expected; 1 when nothing was learned.</param>
/// <param name="ModelSd">What is left of the rule's error, shared and own part together, ln D.</param>
/// <param name="StartSd">What is left of the start's error, fraction.</param>
public readonly record struct LearnedStage(double Fraction, double ModelSd, double StartSd)
{
    /// <summary>
    /// How far the error of a separately fitted emergence rule goes with that of the hatch rule, as a correlation. No source: high,
    /// because both come from the same eggs and the same papers, and not one.
    /// </summary>
    public const double SeparateFitsCorrelation = 0.7;

    /// <summary>The part of the error that comes on top outside the range, for a rule with this standard deviation of ln D.</summary>
    /// <param name="model">The rule for the hatch.</param>
    public static double OutsideSd(StageModel model) =>
        model.LogSd * Math.Sqrt((Development.OutsideRangeFactor * Development.OutsideRangeFactor) - 1);

    /// <summary>u: the rule's error and that of the start, which a hatch cannot tell apart.</summary>
    /// <param name="model">The rule for the hatch.</param>
    /// <param name="startSd">Standard deviation of the fraction at the start.</param>
    public static double SharedSd(StageModel model, double startSd) => Math.Sqrt(Square(model.LogSd) + Square(startSd));

    /// <summary>
    /// The error e of the stage is a u + b x + o + rest: a by the covariance of e and u (a factor on the hatch passes the whole error on, a
    /// separate fit by <see cref="SeparateFitsCorrelation"/>), the rest unlearned. What is left is shared out between rule and start as it
    /// was before: no hatch tells which of them it was.
    /// </summary>
    /// <param name="learning">What the hatches say; its prior is <see cref="SharedSd"/> and <see cref="OutsideSd"/>.</param>
    /// <param name="own">Index of the vessel's own look, if it has one.</param>
    /// <param name="vessel">The vessel and its stage.</param>
    public static LearnedStage Of(LotLearning learning, int? own, LearningVessel vessel)
    {
        var v = vessel;
        Require.NotNegative(v.OwnSd, nameof(vessel));
        var goesOn = v.Stage.Stage == v.Hatch.Stage || v.Stage.IsFactorOfHatch ? 1 : SeparateFitsCorrelation;
        var shared = Square(v.Hatch.LogSd) + Square(v.HatchStartSd);
        var together = (goesOn == 1 ? Square(v.Hatch.LogSd) : goesOn * v.Hatch.LogSd * v.Stage.LogSd) + (v.HatchStartSd * v.StageStartSd);
        var (a, b) = (together / shared, v.HatchOutside ? goesOn : 0);

        var model = Square(v.Stage.LogSd * Wide(v.StageOutside));
        var start = Square(v.StageStartSd);
        var rest = model + start - (a * a * shared) - Square(b * OutsideSd(v.Hatch));
        var ownThen = Square(v.OwnSd * Wide(v.HatchOutside));
        var ownNow = Square(v.OwnSd * Wide(v.StageOutside));
        var seen = own is { } i && learning.Used.Contains(i);
        var error = learning.Carried(a, b, own);
        var left = Square(error.Sd) + Math.Max(0, rest) + (seen ? Math.Max(0, ownNow - ownThen) : ownNow);
        var before = model + start + ownNow;
        return new LearnedStage(
            Math.Exp(error.Mean), Math.Sqrt(left * (model + ownNow) / before), Math.Sqrt(left * start / before));
    }

    private static double Wide(bool outside) => outside ? Development.OutsideRangeFactor : 1;

    private static double Square(double x) => x * x;
}
