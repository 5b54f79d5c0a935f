using Tankside.Hatchery.Flags.Rules;

namespace Tankside.Hatchery.Flags;

/// <summary>
/// Judges one tank at one moment. Pure: the same record and the same moment give the same findings, in the portal, in a replay, and when
/// a season is judged again.
/// </summary>
public static class Assessment
{
    /// <summary>Raised whenever a rule changes, and kept with every flag.</summary>
    public const string RuleVersion = "2026.2";

    /// <summary>What is wrong with the tank at <paramref name="now"/>; empty for a tank without eggs or fish.</summary>
    public static IReadOnlyList<Finding> Assess(TankRecord record, DateTime now)
    {
        if (record.Lot is null || record.Fish <= 0)
        {
            return [];
        }

        var situation = new Situation(record, now);
        var findings = Judge(situation);
        if (SilenceRules.NoReadingWhenDue(situation, LastWordWasBad(findings)) is { } silence)
        {
            findings.Add(silence);
        }

        return findings;
    }

    private static List<Finding> Judge(Situation s)
    {
        Finding?[] found =
        [
            TemperatureRules.TooWarmForTheStage(s),
            TemperatureRules.TooColdForTheStage(s),
            WarmingRules.WarmingFast(s),
            ChillerRules.IcedCoil(s),
            ChillerRules.ChillerReportedOff(s),
            FlowRules.PumpReportedStopped(s),
            WaterRules.PoisonousAmmonia(s),
            LossRules.DieOff(s),
            HatchRules.LateHatch(s),
        ];
        return [.. found.OfType<Finding>()];
    }

    /// <summary>Anything worse than "this week" in what was last seen makes the silence after it matter sooner.</summary>
    private static bool LastWordWasBad(List<Finding> findings) =>
        findings.Any(f => f.Urgency >= Urgency.Today && f.Kind is not FlagKind.LateHatch);
}
