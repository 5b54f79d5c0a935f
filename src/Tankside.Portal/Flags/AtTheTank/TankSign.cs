using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.FirstAidTexts;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>What somebody at the tank sees, without a number.</summary>
public enum TankSign
{
    Still,
    NoBubbles,
    Gasping,
    Warm,
    Ice,
    Cloudy,
    Dead,
    Floor,
}

/// <summary>What a sign is as a fact, and which trouble it points to. The first aid is that of the trouble.</summary>
public static class TankSigns
{
    public static IReadOnlyList<TankSign> All { get; } = Enum.GetValues<TankSign>();

    public static TankSign? Named(string? name) => All.Cast<TankSign?>().FirstOrDefault(s => NameOf(s!.Value) == name);

    /// <summary>As addresses and forms name it.</summary>
    public static string NameOf(TankSign sign) => sign.ToString().ToLowerInvariant();

    /// <param name="dead">How many were seen; only with <see cref="TankSign.Dead"/>.</param>
    public static Observation Seen(TankSign sign, LifeStage stage, int? dead) => sign switch
    {
        TankSign.Still => new Observation { Moving = false },
        TankSign.NoBubbles => new Observation { Bubbles = false },
        TankSign.Gasping => new Observation { Gasping = true },
        TankSign.Warm => new Observation { FeelsWarm = true },
        TankSign.Ice => new Observation { IceOnCoil = true },
        TankSign.Cloudy => new Observation { Clear = false },
        TankSign.Floor => new Observation { WaterOnFloor = true },
        TankSign.Dead => stage switch
        {
            LifeStage.Egg => new Observation { DeadEggs = dead },
            LifeStage.Alevin => new Observation { DeadAlevins = dead },
            LifeStage.Fry => new Observation { DeadFry = dead },
        },
    };

    public static FirstAidCard AidFor(TankSign sign, TankView view, string language)
    {
        var stage = StageOf(view);
        var (kind, evidence) = Trouble(sign, stage, view.Now);
        return FirstAid.Script(kind, stage, AidTank.Of(view.Record), evidence).In(language);
    }

    /// <summary>A tank without eggs is looked after like one with eggs.</summary>
    public static LifeStage StageOf(TankView view) => view.Development?.Stage ?? LifeStage.Egg;

    private static (FlagKind Kind, Evidence? Evidence) Trouble(TankSign sign, LifeStage stage, DateTime now) => sign switch
    {
        TankSign.Still => (FlagKind.PumpFault, null),
        TankSign.NoBubbles => (FlagKind.PumpFault, new FlowEvidence(stage, now, StillWater: false, NoBubbles: true, AllStopped: false, null, 0)),
        TankSign.Gasping => (FlagKind.LowOxygen, null),
        TankSign.Warm => (FlagKind.Warm, null),
        TankSign.Ice => (FlagKind.IcedCoil, null),
        TankSign.Cloudy => (FlagKind.Ammonia, new CloudyEvidence(stage, now, now)),
        TankSign.Dead => (FlagKind.DieOff, null),
        TankSign.Floor => (FlagKind.PumpFault, new LeakEvidence(stage, now)),
    };
}
