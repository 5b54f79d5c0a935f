using Tankside.Hatchery.Eggs;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Readings;

/// <summary>What was seen of the hatch in the other tanks of a tank's lot. Their dates alone: nothing else of those tanks.</summary>
public sealed record LotLearned(IReadOnlyList<HatchSeen> Siblings)
{
    public static readonly LotLearned Nothing = new([]);

    /// <summary>As it stood at the start of that day.</summary>
    public LotLearned Before(DateOnly day) => Siblings.All(s => s.On < day) ? this : new([.. Siblings.Where(s => s.On < day)]);

    /// <summary>Taken together with what was seen in the tank itself; null when no hatch was seen anywhere.</summary>
    internal Taught? With(IEnumerable<HatchSeen> own, LotProfile lot)
    {
        var seen = Siblings.GroupBy(s => s.Tank).Select(HatchesSeen.Best).OfType<HatchSeen>().ToList();
        var ofOwn = HatchesSeen.Best(own);
        if ((seen.Count == 0 && ofOwn is null) || !lot.TryFind(Stage.Hatch, out var model, out _))
        {
            return null;
        }

        var start = LotStart.Of(lot, model);
        HatchLook[] looks = [.. seen.Select(s => s.Look), .. ofOwn is null ? [] : new[] { ofOwn.Look }];
        var learning = LotLearning.From(LearnedStage.SharedSd(model, start.Sd), LearnedStage.OutsideSd(model), looks);
        return new Taught(learning, ofOwn is null ? null : seen.Count, model, start);
    }
}

/// <summary>From how many tanks a tank's dates were sharpened.</summary>
/// <param name="Siblings">Other tanks of the lot whose hatch was seen and counts.</param>
/// <param name="Own">Whether the tank's own does.</param>
/// <param name="SetAside">Tanks, this one too, whose hatch lies too far from all others to be believed.</param>
/// <param name="OwnSetAside">Whether this tank's own is among them.</param>
public sealed record LearnedFrom(int Siblings, bool Own, int SetAside, bool OwnSetAside)
{
    /// <summary>Whether anything was learned; else there are only looks set aside.</summary>
    public bool Any => Siblings > 0 || Own;
}

/// <summary>The lot's error as one tank's dates take it in.</summary>
internal sealed record Taught(LotLearning Learning, int? Own, StageModel Hatch, LotStart HatchStart)
{
    public LearnedFrom From { get; } = new(
        Learning.Used.Count(i => i != Own), Own is { } o && Learning.Used.Contains(o),
        Learning.SetAside.Count, Own is { } x && Learning.SetAside.Contains(x));

    public LearnedStage Of(StageModel stage, LotStart start, bool hatchInRange, bool inRange) => LearnedStage.Of(Learning, Own, new LearningVessel
    {
        Hatch = Hatch,
        Stage = stage,
        HatchStartSd = HatchStart.Sd,
        StageStartSd = start.Sd,
        OwnSd = TankDevelopment.OwnSd,
        HatchOutside = !hatchInRange,
        StageOutside = !inRange,
    });
}
