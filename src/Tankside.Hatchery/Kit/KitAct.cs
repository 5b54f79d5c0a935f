namespace Tankside.Hatchery.Kit;

/// <summary>Where a piece of kit can be.</summary>
public enum KitPlace
{
    /// <summary>Nobody has said.</summary>
    Unknown,
    Tank,
    Depot,

    /// <summary>On the road with somebody.</summary>
    Person,
    Repair,
    Retired,
}

/// <summary>A place with the tank, the depot or the person it means.</summary>
public readonly record struct KitSpot(KitPlace Place, Guid? Id = null)
{
    public static readonly KitSpot Unknown = new(KitPlace.Unknown), AtTheRepairer = new(KitPlace.Repair), Gone = new(KitPlace.Retired);
}

/// <summary>What is done with kit.</summary>
public enum KitActKind
{
    /// <summary>Entered in the register.</summary>
    Registered,

    /// <summary>Lent out: put to work in a tank.</summary>
    Out,

    /// <summary>Came back from a tank or from the road to a depot.</summary>
    In,

    /// <summary>Changed for another one, both sides at once.</summary>
    Swapped,

    /// <summary>Taken along by somebody.</summary>
    Taken,
    Fault,
    RepairSent,
    Repaired,
    WarrantyClaimed,
    Cleaned,

    /// <summary>Put away, or moved from one depot to another.</summary>
    Stored,

    /// <summary>The school signed the loan agreement.</summary>
    LoanSigned,
    Retired,
    Noted,

    /// <summary>What the register says of it was put right.</summary>
    Corrected,
}

/// <summary>
/// One line in the history of a piece of kit; lines are only added. They are numbered from 1 without a gap and each begins where the one
/// before ended, so of two people who move the same piece at once one is told.
/// </summary>
public sealed class KitAct
{
    public Guid ItemId { get; init; }

    public int Number { get; init; }

    /// <summary>From the sender, so that the form sent twice is one act. Both sides of a swap have the same.</summary>
    public Guid SenderId { get; init; }

    public KitActKind Kind { get; init; }

    public DateTime At { get; init; }

    /// <summary>Null for what came with the register.</summary>
    public Guid? By { get; init; }

    public KitPlace FromPlace { get; init; }

    public Guid? FromId { get; init; }

    public KitPlace ToPlace { get; init; }

    public Guid? ToId { get; init; }

    /// <summary>Condition before and after.</summary>
    public KitCondition Before { get; init; }

    public KitCondition After { get; init; }

    public string? Note { get; init; }

    public KitSpot FromSpot => new(FromPlace, FromId);

    public KitSpot ToSpot => new(ToPlace, ToId);

    /// <summary>It worked and does no longer.</summary>
    public bool IsFailure => Before == KitCondition.Working && Kind is KitActKind.Fault or KitActKind.Swapped && After != KitCondition.Working;
}
