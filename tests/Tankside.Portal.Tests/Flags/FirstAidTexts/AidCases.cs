using System.Text.RegularExpressions;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.FirstAidTexts;

/// <summary>A card with what it is said for.</summary>
public sealed record AidCase(string Name, FlagKind Kind, LifeStage Stage, FirstAidScript Script)
{
    public override string ToString() => Name;
}

/// <summary>Every card there is: each kind at each stage, with every evidence and every water that decides between two.</summary>
public static class AidCases
{
    private static readonly DateTime At = TestWorld.Now;

    public static IReadOnlyList<AidCase> All { get; } = [.. from kind in Enum.GetValues<FlagKind>() from stage in Enum.GetValues<LifeStage>() from c in Of(kind, stage) select c];

    public static IEnumerable<string> Sentences(IEnumerable<string> texts) =>
        texts.SelectMany(t => Regex.Split(t, @"(?<=[.?!])\s+")).Where(s => s.Length > 0);

    private static IEnumerable<AidCase> Of(FlagKind kind, LifeStage stage) =>
        from evidence in EvidenceOf(kind, stage)
        from water in kind == FlagKind.Chlorine ? Enum.GetValues<Disinfectant>() : [Disinfectant.Chlorine]
        from litres in (double[])[208, 38]
        select new AidCase(
            $"{kind} {stage} {evidence} {water} {litres}", kind, stage,
            FirstAid.Script(kind, stage, new AidTank { Disinfectant = water, Litres = litres }, evidence));

    public static SharedCauseEvidence Shared(LifeStage stage, SharedBy by) =>
        new(stage, by, "L1", [new SharedTank("A001", null, 30, 3, 118), new SharedTank("A002", FlagKind.Warm, 0, 3, 148)], ["A004"], 148, At, 0.0001, 0.001, []);

    private static Suspect?[] Suspects => [null, .. Enum.GetValues<Suspect>()];

    private static PowerCutEvidence PowerCut(LifeStage stage) =>
        new(stage, At.AddHours(-4), null, null, At.AddHours(-6), 11, true, 140, null, null, 15, false, null, 0.3);

    private static Evidence?[] EvidenceOf(FlagKind kind, LifeStage stage) => kind switch
    {
        FlagKind.Warm => [null, new SaidWarmEvidence(stage, At, 10.6, At.AddHours(-20)), .. Suspects.Select(by => new TemperatureEvidence(stage, 16.1, At, 15, At, 10.5) { LooksLike = by })],
        FlagKind.WarmingFast =>
        [
            new WarmingEvidence(stage, 14, At, 12, At.AddHours(-2), 1, true, 15, null, 21),
            new WarmingEvidence(stage, 14, At, 12, At.AddHours(-2), 1, true, 15, null, 21) { LooksLike = Suspect.CoilIced },
        ],
        FlagKind.ChillerFault =>
        [
            null,
            new ChillerEvidence(stage, At, 14, 10.5, false, null, null),
            new ChillerEvidence(stage, At, 10.6, 10.5, false, null, null),
            new ChillerEvidence(stage, At, 10.6, 10.5, true, null, null),
            new ChillerEvidence(stage, At, 14, 10.5, false, null, null) { LooksLike = Suspect.CoilIced },
        ],
        FlagKind.Cold => [null, new RefillEvidence(stage, 6, At, 10, At.AddHours(-3), 50)],
        FlagKind.IcedCoil => [new IceEvidence(stage, true, 3, At, 10.5), new IceEvidence(stage, false, 3, At, 10.5)],
        FlagKind.PumpFault =>
        [
            null,
            new FlowEvidence(stage, At, true, true, true, 11, 140),
            new FlowEvidence(stage, At, true, false, false, 11, 140),
            new FlowEvidence(stage, At, false, true, false, 11, 140),
            new LeakEvidence(stage, At),
        ],
        FlagKind.Ammonia =>
        [
            new AmmoniaEvidence(stage, 4, At, null, null, 11, null, 0.0103),
            new AmmoniaEvidence(stage, 4, At, 6.4, At, 11, 0.002, 0.0103),
            new AmmoniaEvidence(stage, 1.5, At, 7.8, At, 11, 0.0188, 0.0164),
            new CloudyEvidence(stage, At, At),
        ],
        FlagKind.Silent =>
        [
            new SilenceEvidence(stage, At, 2, 0, false, 11),
            new SilenceEvidence(stage, At, 0, 14, false, 11),
            new SilenceEvidence(stage, null, 3, 0, false, null),
            PowerCut(stage),
            PowerCut(stage) with { BackAt = At },
            new TroubleSaidEvidence(stage, SweepReason.Flood, At.AddHours(-3), At, null, null),
            new ShutEvidence(stage, SweepReason.Snow, At.AddDays(-3), At.AddDays(-4), 3, false, 11),
        ],
        FlagKind.Nitrite => [new NitriteEvidence(stage, 0.3, At, 0.06, 0.2, At, false), new NitriteEvidence(stage, 0.3, At, 0.06, null, null, true)],
        FlagKind.Contradictory =>
        [
            new ContradictionEvidence(stage, SaidFact.NoneHatched, At, SaidFact.SomeSwim, At, null, null),
            new ContradictionEvidence(stage, SaidFact.ChillerOff, At, SaidFact.WaterFell, At, 10, 12),
            new ContradictionEvidence(stage, SaidFact.Fed, At, SaidFact.HatchNotDue, At, null, null),
        ],
        FlagKind.SharedCause => [null, .. Enum.GetValues<SharedBy>().Select(by => Shared(stage, by))],
        FlagKind.NotReady => [null, new ReadinessEvidence(stage, Unready.OffSetPoint, 150, new DateOnly(2027, 2, 9), 14, At, null, 10.5)],
        _ => [null],
    };
}
