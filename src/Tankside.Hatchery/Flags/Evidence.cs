using System.Text.Json.Serialization;
using Tankside.Hatchery.Eggs;

namespace Tankside.Hatchery.Flags;

/// <summary>
/// The numbers a finding rests on. They are kept with the flag and worded by the screen; nothing here is text for a person.
/// </summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "is")]
[JsonDerivedType(typeof(TemperatureEvidence), "temperature")]
[JsonDerivedType(typeof(IceEvidence), "ice")]
[JsonDerivedType(typeof(RefillEvidence), "refill")]
[JsonDerivedType(typeof(WarmingEvidence), "warming")]
[JsonDerivedType(typeof(ChillerEvidence), "chiller")]
[JsonDerivedType(typeof(FlowEvidence), "flow")]
[JsonDerivedType(typeof(SilenceEvidence), "silence")]
[JsonDerivedType(typeof(LossEvidence), "loss")]
[JsonDerivedType(typeof(AmmoniaEvidence), "ammonia")]
[JsonDerivedType(typeof(HatchEvidence), "hatch")]
[JsonDerivedType(typeof(PowerCutEvidence), "power-cut")]
[JsonDerivedType(typeof(TroubleSaidEvidence), "trouble-said")]
[JsonDerivedType(typeof(ShutEvidence), "shut")]
[JsonDerivedType(typeof(EarlyHatchEvidence), "early-hatch")]
[JsonDerivedType(typeof(FeedingEvidence), "feeding")]
[JsonDerivedType(typeof(ReadinessEvidence), "readiness")]
[JsonDerivedType(typeof(TallyEvidence), "tally")]
[JsonDerivedType(typeof(ReportEvidence), "report")]
[JsonDerivedType(typeof(OxygenEvidence), "oxygen")]
[JsonDerivedType(typeof(NitriteEvidence), "nitrite")]
[JsonDerivedType(typeof(ChlorineEvidence), "chlorine")]
[JsonDerivedType(typeof(MetalsEvidence), "metals")]
[JsonDerivedType(typeof(PhEvidence), "ph")]
[JsonDerivedType(typeof(FungusEvidence), "fungus")]
[JsonDerivedType(typeof(ContradictionEvidence), "contradiction")]
[JsonDerivedType(typeof(StuckEvidence), "stuck")]
[JsonDerivedType(typeof(SharedCauseEvidence), "shared")]
[JsonDerivedType(typeof(SaidWarmEvidence), "said-warm")]
[JsonDerivedType(typeof(LeakEvidence), "leak")]
[JsonDerivedType(typeof(CloudyEvidence), "cloudy")]
public abstract record Evidence(LifeStage Stage)
{
    /// <summary>What is behind it, where one suspect clearly leads; see <see cref="Diagnosis"/>.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public Suspect? LooksLike { get; init; }
}

/// <summary>Water outside its limits.</summary>
/// <param name="Limit">The limit that is passed, °C.</param>
/// <param name="Since">Reading from which it has been so without a break.</param>
public sealed record TemperatureEvidence(LifeStage Stage, double WaterC, DateTime At, double Limit, DateTime Since, double SetPointC)
    : Evidence(Stage);

/// <summary>Water that fell at a water change.</summary>
/// <param name="FromC">The temperature before, °C, read at <paramref name="FromAt"/>.</param>
public sealed record RefillEvidence(LifeStage Stage, double WaterC, DateTime At, double FromC, DateTime FromAt, double ChangedPercent) : Evidence(Stage);

/// <summary>Ice on the coil, seen or inferred from water colder than the chiller aims for.</summary>
public sealed record IceEvidence(LifeStage Stage, bool Seen, double? WaterC, DateTime At, double SetPointC) : Evidence(Stage);

/// <summary>Water on its way up.</summary>
/// <param name="PerHour">°C an hour at the last reading.</param>
/// <param name="OwnSlope">True when the pace comes from the tank's own last two readings, false when from its size and room.</param>
/// <param name="Limit">The limit that time is counted to, °C.</param>
/// <param name="PassesAt">When the limit is passed: early end, middle, late end of the 80% interval.</param>
public sealed record WarmingEvidence(
    LifeStage Stage,
    double WaterC,
    DateTime At,
    double? EarlierC,
    DateTime? EarlierAt,
    double PerHour,
    bool OwnSlope,
    double Limit,
    PassTimes? PassesAt,
    double SettlesAtC) : Evidence(Stage);

/// <summary>An 80% interval of instants.</summary>
public sealed record PassTimes(DateTime Low, DateTime Mid, DateTime High);

/// <summary>The class says the chiller is not running.</summary>
public sealed record ChillerEvidence(
    LifeStage Stage, DateTime At, double? WaterC, double SetPointC, bool AllStopped, PassTimes? PassesAt, double? Limit) : Evidence(Stage);

/// <summary>No movement, no bubbles, or both.</summary>
/// <param name="AllStopped">Chiller, pump and air stopped together: look at the power first.</param>
public sealed record FlowEvidence(LifeStage Stage, DateTime At, bool StillWater, bool NoBubbles, bool AllStopped, double? WaterC, int Fish)
    : Evidence(Stage);

/// <summary>No reading when one was due.</summary>
/// <param name="LastAt">Last reading; null when there has been none since the eggs came.</param>
/// <param name="MissedDays">School days without a reading.</param>
/// <param name="AfterBreakDays">Closed days before the first day back; 0 when this is not about a break.</param>
public sealed record SilenceEvidence(
    LifeStage Stage, DateTime? LastAt, int MissedDays, int AfterBreakDays, bool LastWasFlagged, double? LastWaterC)
    : Evidence(Stage);

/// <summary>More dead than this tank's and its lot's past explain.</summary>
/// <param name="Expected">Deaths expected over the same days.</param>
/// <param name="Tail">Chance of as many or more if nothing were wrong.</param>
/// <param name="Rising">A slow rise that no two days show.</param>
public sealed record LossEvidence(
    LifeStage Stage, int Dead, int Days, DateOnly LastDay, double Expected, double Tail, int Fish, bool Rising = false) : Evidence(Stage);

/// <summary>The poisonous part of the ammonia.</summary>
/// <param name="UnionizedN">mg/L as N; null when no pH is known and it cannot be judged.</param>
public sealed record AmmoniaEvidence(
    LifeStage Stage, double TotalMgL, DateTime At, double? Ph, DateTime? PhAt, double WaterC, double? UnionizedN, double Limit) : Evidence(Stage);

/// <summary>Hatch outside its interval.</summary>
public sealed record HatchEvidence(LifeStage Stage, DateOnly Mid, DateOnly Low95, DateOnly High95, int DaysOver, bool SaidNone)
    : Evidence(Stage);
