using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>
/// First aid by trouble, stage and evidence, as text to read out or send. Plugs and cords are for an adult; medicine, salt, copper and
/// buffers never without the local biologist. The steps are common practice in the trade, no source; amounts are computed for the tank.
/// </summary>
public static class FirstAid
{
    /// <summary>The card in one language.</summary>
    public static FirstAidCard For(Finding finding, AidTank tank, string language) =>
        Script(finding.Kind, finding.Evidence.Stage, tank, finding.Evidence).In(language);

    /// <param name="evidence">Null where nothing is known beyond the kind.</param>
    public static FirstAidScript Script(FlagKind kind, LifeStage stage, AidTank tank, Evidence? evidence = null)
    {
        var usual = Usual(kind, stage, tank, evidence);
        return SuspectAid.IsIce(kind, evidence)
            ? Own(SuspectAid.Fitted(usual, kind, stage, tank, evidence))
            : SuspectAid.Fitted(Own(usual), kind, stage, tank, evidence);

        FirstAidScript Own(FirstAidScript ours) => OwnAid.Put(ours, AidTopics.Of(kind, evidence), stage, tank, evidence);
    }

    /// <summary>A topic where nothing is known beyond it, in the programme's own words if it has any.</summary>
    public static FirstAidScript Of(AidTopic topic, LifeStage stage, AidTank tank) => OwnAid.Put(topic.Ours(stage, tank), topic, stage, tank);

    internal static FirstAidScript Usual(FlagKind kind, LifeStage stage, AidTank tank, Evidence? evidence) => kind switch
    {
        FlagKind.Warm => HeatAid.Warm(stage, tank, (evidence as TemperatureEvidence)?.WaterC),
        FlagKind.WarmingFast => HeatAid.WarmingFast(stage, tank, (evidence as WarmingEvidence)?.WaterC),
        FlagKind.ChillerFault => HeatAid.Chiller(stage, tank, evidence as ChillerEvidence),
        FlagKind.IcedCoil => ColdAid.Ice(stage, tank, evidence is not IceEvidence { Seen: false }),
        FlagKind.Cold => evidence is RefillEvidence ? ColdAid.Refill(stage, tank) : ColdAid.Cold(stage, tank),
        FlagKind.PumpFault => evidence is LeakEvidence ? LeakAid.Of(stage) : AirAid.Pump(stage, tank, evidence as FlowEvidence),
        FlagKind.LowOxygen => AirAid.LowOxygen(stage, tank),
        FlagKind.Ammonia => evidence is CloudyEvidence ? AmmoniaAid.Cloudy(stage, tank) : AmmoniaAid.Of(stage, tank, evidence as AmmoniaEvidence),
        FlagKind.Nitrite => WaterAid.Nitrite(stage, tank, evidence as NitriteEvidence),
        FlagKind.Chlorine => WaterAid.ChlorineIn(stage, tank),
        FlagKind.Metals => WaterAid.Metals(stage),
        FlagKind.PhSag => WaterAid.PhSag(stage, tank),
        FlagKind.DieOff => LossAid.DieOff(stage),
        FlagKind.Fungus => LossAid.Fungus(stage),
        FlagKind.LateHatch => HatchAid.Late(stage),
        FlagKind.EarlyHatch => HatchAid.Early(stage),
        FlagKind.FeedingNearBreak => HatchAid.FeedingNearBreak(stage, tank),
        FlagKind.Silent => AreaAid.Of(stage, tank, evidence) ?? KnowingAid.Silent(stage, evidence as SilenceEvidence),
        FlagKind.Contradictory => KnowingAid.Contradictory(stage, evidence as ContradictionEvidence),
        FlagKind.StuckThermometer => KnowingAid.StuckThermometer(stage, tank),
        FlagKind.NotReady => AccountAid.NotReady(tank, evidence as ReadinessEvidence),
        FlagKind.Tally => AccountAid.Tally(stage),
        FlagKind.ReportLate => AccountAid.ReportLate(stage),
        FlagKind.SharedCause => SharedAid.Of((evidence as SharedCauseEvidence)?.By),
    };

    /// <summary>What a class is told: an adult first, and never a step at a plug.</summary>
    public static string ForClass(FlagKind kind, OwnTexts texts, string language) => ClassLines.Of(kind, texts).In(language);
}
