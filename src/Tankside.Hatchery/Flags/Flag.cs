namespace Tankside.Hatchery.Flags;

/// <summary>Open flags stand in the round; settled ones are history.</summary>
public enum FlagState
{
    Open,
    Settled,
}

/// <summary>How a flag came to be settled.</summary>
public enum Settlement
{
    /// <summary>The cause was gone.</summary>
    Cleared,

    /// <summary>A person closed it with an outcome.</summary>
    Closed,
}

/// <summary>
/// A trouble of one tank, from when it was found until it is settled. There is at most one open flag of a kind at a tank; what happens to
/// it is kept in its <see cref="FlagEvent"/>s.
/// </summary>
public sealed class Flag
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    /// <summary>Null for a shared cause, which stands over several tanks.</summary>
    public Guid? TankId { get; init; }

    /// <summary>What the tanks of a shared cause have in common; null for a trouble of one tank.</summary>
    public SharedBy? CauseBy { get; init; }

    /// <summary>Which lot, run, area, water or chiller batch it is.</summary>
    public string? CauseCode { get; init; }

    public FlagKind Kind { get; init; }

    public FlagState State { get; set; }

    public Urgency Urgency { get; set; }

    public DateTime OpenedAt { get; init; }

    public DateTime UpdatedAt { get; set; }

    public DateTime? SettledAt { get; set; }

    public Settlement? Settlement { get; set; }

    /// <summary>Newest fact it stands on; see <see cref="Finding.StandsOn"/>.</summary>
    public DateTime StandsOn { get; set; }

    public required Evidence Evidence { get; set; }

    public required Hazard Hazard { get; set; }

    public required string RuleVersion { get; set; }

    public Guid? TakenBy { get; set; }

    public DateTime? TakenAt { get; set; }

    /// <summary>
    /// Set when only a class reading says that the trouble is over. An adult has to agree before an act-now or a taken flag leaves the round.
    /// </summary>
    public DateTime? SaidOverAt { get; set; }

    /// <summary>When what was promised is due; the flag is raised again then.</summary>
    public DateTime? PromiseDue { get; set; }

    /// <summary>Until when a person lets it rest, for the reason in its history.</summary>
    public DateTime? WaitUntil { get; set; }

    /// <summary>True from the moment a promise was due with the trouble still there, until somebody acts on it.</summary>
    public bool PromiseFellDue { get; set; }

    /// <summary>How often a person has acted on it. A person acts on the turn they saw; an older one is shown the newer first.</summary>
    public int Turn { get; set; }

    public int Version { get; set; }

    /// <summary>When it comes back into the round by itself; null while it stands in it.</summary>
    public DateTime? RestsUntil => PromiseDue ?? WaitUntil;

    public bool RestsAt(DateTime now) => RestsUntil > now;

    public Finding AsFinding() => new(Kind, Urgency, StandsOn, Evidence, Hazard);
}

/// <summary>What was done to a flag, by the rules or by a person.</summary>
public enum FlagDeed
{
    Opened,
    Updated,
    SaidOver,
    Cleared,
    Taken,
    HandedBack,
    Noted,
    Closed,
    Reopened,

    /// <summary>Given to somebody by somebody.</summary>
    Assigned,

    /// <summary>Somebody was reached; what they read is a reading of its own.</summary>
    Called,

    /// <summary>Nobody was reached.</summary>
    NotReached,
    Promised,

    /// <summary>A promise was due and nothing came.</summary>
    PromiseDue,
    Waiting,
    WaitOver,
    FirstAidSent,
    SpareReserved,
    SpareGivenBack,
}

/// <summary>What the tanks of a shared cause have in common.</summary>
public enum SharedBy
{
    Lot,
    Run,
    Area,
    Water,
    ChillerBatch,
}

/// <summary>What a trouble turned out to be.</summary>
public enum TroubleCause
{
    Unknown,
    ChillerDead,
    CoilIced,
    PlugOrBreaker,
    PowerCut,
    PumpBlocked,
    AirStopped,
    SetPoint,
    RoomOrSun,
    Thermometer,
    SlipInReading,
    WaterChange,
    Feeding,
    FilterOrWaste,
    Eggs,
    NobodyLooked,
    Other,
}

/// <summary>How a call ended, in the trade's words.</summary>
public enum Outcome
{
    FixedByPhone,
    SpareSent,
    Visited,
    FishMoved,
    FalseAlarm,
    LossAccepted,
    Other,
}

/// <summary>One line of a flag's history. Lines are only added.</summary>
public sealed class FlagEvent
{
    public long Id { get; init; }

    public Guid FlagId { get; init; }

    public DateTime At { get; init; }

    /// <summary>Null when the rules did it.</summary>
    public Guid? By { get; init; }

    public FlagDeed Deed { get; init; }

    public string? Note { get; init; }

    public Outcome? Outcome { get; init; }

    public TroubleCause? Cause { get; init; }

    /// <summary>Until when: a promise's due time, or the end of a wait.</summary>
    public DateTime? Until { get; init; }

    /// <summary>To whom it was given.</summary>
    public Guid? To { get; init; }

    /// <summary>The numbers as they stood, when they changed.</summary>
    public Evidence? Evidence { get; init; }

    public Urgency? Urgency { get; init; }

    /// <summary>The rules that did it; null for a person's deed.</summary>
    public string? RuleVersion { get; init; }
}
