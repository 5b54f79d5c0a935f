using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;

namespace Tankside.Storage.Tests;

/// <summary>Evidence of every kind, filled in, and once with nothing in what may be left out.</summary>
internal static class SampleEvidence
{
    private static readonly DateTime At = SampleRows.At;

    private static readonly PassTimes Passes = new(At.AddHours(1.25), At.AddHours(3), At.AddHours(7.5));

    public static IReadOnlyList<Evidence> All { get; } =
    [
        new TemperatureEvidence(LifeStage.Alevin, 13.05, At, 12.2, At.AddDays(-1), 10.5),
        new IceEvidence(LifeStage.Egg, false, 3.3, At, 10.5),
        new WarmingEvidence(LifeStage.Fry, 14.1, At, 12.2, At.AddHours(-4), 0.475, true, 20, Passes, 22.3),
        new ChillerEvidence(LifeStage.Egg, At, 10.4, 10.5, true, Passes, 15),
        new FlowEvidence(LifeStage.Alevin, At, true, false, true, 10.25, 148),
        new SilenceEvidence(LifeStage.Egg, At.AddDays(-6), 2, 4, true, 9.9),
        new LossEvidence(LifeStage.Fry, 11, 3, new DateOnly(2027, 2, 3), 0.89, 4.2e-7, 137),
        new AmmoniaEvidence(LifeStage.Fry, 1.5, At, 7.8, At.AddDays(-2), 10.1, 0.0171, 0.0164),
        new HatchEvidence(LifeStage.Egg, new DateOnly(2027, 1, 28), new DateOnly(2027, 1, 24), new DateOnly(2027, 2, 1), 2, true),
        new IceEvidence(LifeStage.Egg, true, null, At, 10.5),
        new WarmingEvidence(LifeStage.Egg, 12, At, null, null, 0.2, false, 15, null, 14),
        new ChillerEvidence(LifeStage.Egg, At, null, 10.5, false, null, null),
        new SilenceEvidence(LifeStage.Egg, null, 3, 0, false, null),
        new AmmoniaEvidence(LifeStage.Fry, 1.5, At, null, null, 10.1, null, 0.0103),
    ];
}
