using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;

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
        new WarmingEvidence(LifeStage.Fry, 14.1, At, 12.2, At.AddHours(-4), 0.475, true, 20, Passes, 22.3) { LooksLike = Suspect.ChillerDead },
        new ChillerEvidence(LifeStage.Egg, At, 10.4, 10.5, true, Passes, 15),
        new FlowEvidence(LifeStage.Alevin, At, true, false, true, 10.25, 148),
        new SilenceEvidence(LifeStage.Egg, At.AddDays(-6), 2, 4, true, 9.9),
        new LossEvidence(LifeStage.Fry, 11, 3, new DateOnly(2027, 2, 3), 0.89, 4.2e-7, 137),
        new AmmoniaEvidence(LifeStage.Fry, 1.5, At, 7.8, At.AddDays(-2), 10.1, 0.0171, 0.0164),
        new LossEvidence(LifeStage.Egg, 14, 21, new DateOnly(2027, 2, 3), 4.9, 0.004, 137, Rising: true),
        new SharedCauseEvidence(
            LifeStage.Egg, SharedBy.ChillerBatch, "C1", [new SharedTank("A001", FlagKind.IcedCoil, 0, 0, 148), new SharedTank("A002", null, 31, 3.2, 119)],
            ["A003", "A004"], 301, At.AddHours(-3), 5.4e-5, 0.0032, [new SharedWith(SharedBy.Area, "north")]),
        new SharedCauseEvidence(LifeStage.Fry, SharedBy.Lot, "A", [], [], 0, At, 1e-9, 1, []),
        new HatchEvidence(LifeStage.Egg, new DateOnly(2027, 1, 28), new DateOnly(2027, 1, 24), new DateOnly(2027, 2, 1), 2, true),
        new OxygenEvidence(LifeStage.Alevin, 6.1, At, 54.2, 6.5, 7.4, At.AddHours(-3), 6, Passes, true),
        new NitriteEvidence(LifeStage.Fry, 0.25, At, 0.15, 0.2, At.AddDays(-2), false),
        new ChlorineEvidence(LifeStage.Fry, At, 0.1, At, 0.02, At.AddHours(-1), At.AddHours(-2), 30, Disinfectant.Chloramine),
        new MetalsEvidence(LifeStage.Alevin, 9, new DateOnly(2027, 1, 29), new DateOnly(2027, 2, 2), true, new DateOnly(2027, 1, 27), 7.2, 0.25, 0, At),
        new PhEvidence(LifeStage.Fry, 6.3, At, 6.5, 0.25, 7.1, At.AddDays(-14)),
        new FungusEvidence(LifeStage.Egg, At, At.AddDays(-1), 14, false),
        new ContradictionEvidence(LifeStage.Egg, SaidFact.ChillerOff, At, SaidFact.WaterFell, At.AddHours(-4), 10.2, 12.5),
        new StuckEvidence(LifeStage.Egg, 10, At, 15, new DateOnly(2027, 1, 13), ThermometerStep.WholeFahrenheit, 10.5),
        new OxygenEvidence(LifeStage.Fry, null, At, null, null, null, null, 4, null, true),
        new NitriteEvidence(LifeStage.Fry, 0.1, At, 0.06, null, null, true),
        new ChlorineEvidence(LifeStage.Fry, At, null, null, 0.02, null, null, null, Disinfectant.Unknown),
        new MetalsEvidence(LifeStage.Alevin, 9, new DateOnly(2027, 1, 29), new DateOnly(2027, 2, 2), false, new DateOnly(2027, 1, 27), 7.2, 0, null, At),
        new PhEvidence(LifeStage.Fry, 6.3, At, null, null, null, null),
        new FungusEvidence(LifeStage.Alevin, At, At, null, true),
        new ContradictionEvidence(LifeStage.Egg, SaidFact.SomeSwim, At, SaidFact.NoneHatched, At, null, null),
        new IceEvidence(LifeStage.Egg, true, null, At, 10.5),
        new SaidWarmEvidence(LifeStage.Egg, At, 10.6, At.AddHours(-20)),
        new SaidWarmEvidence(LifeStage.Fry, At, null, null),
        new LeakEvidence(LifeStage.Alevin, At),
        new CloudyEvidence(LifeStage.Fry, At, At.AddDays(-1)),
        new RefillEvidence(LifeStage.Alevin, 6, At, 10, At.AddHours(-3), 50),
        new WarmingEvidence(LifeStage.Egg, 12, At, null, null, 0.2, false, 15, null, 14),
        new ChillerEvidence(LifeStage.Egg, At, null, 10.5, false, null, null),
        new SilenceEvidence(LifeStage.Egg, null, 3, 0, false, null),
        new AmmoniaEvidence(LifeStage.Fry, 1.5, At, null, null, 10.1, null, 0.0103),
        new PowerCutEvidence(
            LifeStage.Fry, At, At.AddHours(6), At.AddHours(4), At.AddHours(-2), 11.15, true, 110, Passes, Passes, 20, true,
            new SchoolWord(SweepAnswer.PowerOff, At.AddHours(1)), 0.35),
        new PowerCutEvidence(LifeStage.Egg, At, null, null, null, null, null, 148, null, null, 15, false, null, 0.1),
        new TroubleSaidEvidence(LifeStage.Alevin, SweepReason.Flood, At.AddHours(-3), At, At.AddDays(-1), 10.05),
        new TroubleSaidEvidence(LifeStage.Egg, SweepReason.Other, At, At, null, null),
        new ShutEvidence(LifeStage.Egg, SweepReason.Snow, At, At.AddDays(-3), 2, true, 10.2),
        new EarlyHatchEvidence(LifeStage.Alevin, new DateOnly(2027, 1, 20), new DateOnly(2027, 1, 28), new DateOnly(2027, 1, 24)),
        new FeedingEvidence(
            LifeStage.Egg, false, new DateOnly(2026, 12, 15), new DateOnly(2026, 12, 12), new DateOnly(2026, 12, 18), new DateOnly(2026, 12, 7),
            new DateOnly(2026, 12, 19), new DateOnly(2027, 1, 3), 0.93),
        new ReadinessEvidence(LifeStage.Egg, Unready.NotProved, 200, new DateOnly(2027, 2, 4), 10.9, At, At.AddHours(-20), 10.5),
        new ReadinessEvidence(LifeStage.Egg, Unready.Unread, 200, new DateOnly(2027, 2, 4), null, null, null, 10.5),
        new TallyEvidence(LifeStage.Egg, 200, -12, At, false, 0.15),
        new TallyEvidence(LifeStage.Egg, 200, 80, null, true, 0.15),
        new ReportEvidence(LifeStage.Fry, new DateOnly(2027, 4, 12), new DateOnly(2027, 4, 22), 87, "P-2027-14"),
    ];
}
