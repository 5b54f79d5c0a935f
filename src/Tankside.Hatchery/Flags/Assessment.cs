using Tankside.Hatchery.Flags.Rules;

namespace Tankside.Hatchery.Flags;

/// <summary>
/// Judges one tank at one moment. Pure: the same record and the same moment give the same findings, in the portal, in a replay, and when
/// a season is judged again.
/// </summary>
public static class Assessment
{
    /// <summary>Raised whenever a rule changes, and kept with every flag.</summary>
    public const string RuleVersion = "2026.9";

    /// <summary>What is wrong with the tank at <paramref name="now"/>; without eggs or fish only readiness and account are judged.</summary>
    public static IReadOnlyList<Finding> Assess(TankRecord record, DateTime now)
    {
        var findings = record.Lot is null || record.Fish <= 0 ? WithoutFish(record, now) : WithFish(record, now);
        if (TallyRules.DoesNotBalance(record, now) is { } tally)
        {
            findings.Add(tally);
        }

        if (ReportRules.NotSent(record, now) is { } late)
        {
            findings.Add(late);
        }

        return findings;
    }

    /// <summary>Of a tank without fish only this can be wrong: that eggs are on their way to it.</summary>
    private static List<Finding> WithoutFish(TankRecord record, DateTime now) =>
        ReadinessRules.NotReadyForEggs(record, now) is { } notReady ? [notReady] : [];

    private static List<Finding> WithFish(TankRecord record, DateTime now)
    {
        var situation = new Situation(record, now);
        var findings = Judge(situation);
        findings.AddRange(TakenAwayByLateReadings(record, now, findings));
        if (Unseen(situation, LastWordWasBad(findings)) is { } unseen)
        {
            findings.Add(unseen);
        }

        return WithSuspect(situation, findings);
    }

    /// <summary>
    /// A reading that arrives late tells more and takes nothing away: what is wrong with the water without it stays wrong until something
    /// newer says otherwise. What it says of eggs and deaths counts as if it had come in time.
    /// </summary>
    private static IEnumerable<Finding> TakenAwayByLateReadings(TankRecord record, DateTime now, List<Finding> findings)
    {
        var inTime = record.InTime();
        return inTime.Count == record.Recent.Count
            ? []
            : Judge(new Situation(record with { Recent = inTime }, now))
                .Where(f => Dangers.Of(f.Kind) is Danger.Heat or Danger.Cold or Danger.Air or Danger.Poison && findings.All(other => other.Kind != f.Kind));
    }

    /// <summary>Not knowing has one flag, whatever it comes from: the worst of its reasons is told.</summary>
    private static Finding? Unseen(Situation s, bool lastWasFlagged)
    {
        Finding?[] found =
        [
            PowerCutRules.NotSeenSinceTheCut(s),
            AreaRules.TroubleSaid(s),
            SilenceRules.NoReadingWhenDue(s, lastWasFlagged),
            AreaRules.UnseenWhileShut(s, lastWasFlagged),
        ];
        return found.OfType<Finding>().OrderByDescending(f => f.Urgency).ThenByDescending(f => f.Hazard.ShareLost).FirstOrDefault();
    }

    private static List<Finding> Judge(Situation s)
    {
        Finding?[] found =
        [
            WarmRules.TooWarmForTheStage(s) ?? SignRules.SaidToBeWarm(s),
            ColdRules.TooColdForTheStage(s) ?? RefillRules.MuchColder(s),
            WarmingRules.WarmingFast(s),
            IceRules.IcedCoil(s),
            ChillerRules.ChillerReportedOff(s),
            SignRules.WaterOnTheFloor(s) ?? FlowRules.PumpReportedStopped(s),
            OxygenRules.LowOxygen(s),
            AmmoniaRules.PoisonousAmmonia(s) ?? SignRules.CloudyAndNotTested(s),
            NitriteRules.HighNitrite(s),
            ChlorineRules.Chlorine(s),
            MetalsRules.DeathsInGoodWater(s),
            PhRules.PhSag(s),
            LossRules.DieOff(s),
            FungusRules.FungusSeen(s),
            HatchRules.LateHatch(s),
            ContradictionRules.CannotBothBe(s),
            StuckRules.NeverChanges(s),
            EarlyHatchRules.HatchBeforeItsTime(s),
            FeedingRules.SwimUpNearBreak(s),
        ];
        return [.. found.OfType<Finding>()];
    }

    /// <summary>What is behind warm, cold or still water is one question for all of a tank's findings of it.</summary>
    private static List<Finding> WithSuspect(Situation s, List<Finding> findings) =>
        findings.Any(f => Diagnosis.IsFor(f.Kind)) && Diagnosis.Of(s).Leading is { } leading
            ? [.. findings.Select(f => Diagnosis.IsFor(f.Kind) && f.Evidence is not LeakEvidence ? f with { Evidence = f.Evidence with { LooksLike = leading } } : f)]
            : findings;

    /// <summary>Anything worse than "this week" in what was last seen makes the silence after it matter sooner.</summary>
    private static bool LastWordWasBad(List<Finding> findings) =>
        findings.Any(f => f.Urgency >= Urgency.Today && f.Kind is not (FlagKind.LateHatch or FlagKind.FeedingNearBreak));
}
