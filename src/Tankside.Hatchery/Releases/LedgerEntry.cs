using Tankside.Hatchery.Eggs;

namespace Tankside.Hatchery.Releases;

/// <summary>What can happen to eggs and fish. Every one of them is in exactly one entry after it was received.</summary>
public enum LedgerKind
{
    Received,
    DeadOnArrival,
    EggLoss,
    AlevinLoss,
    FryLoss,
    PutDown,
    Sampled,
    TransferredIn,
    TransferredOut,
    Released,

    /// <summary>A count of the living. It moves no fish; it shows what the other entries cannot explain.</summary>
    Counted,
}

/// <summary>
/// One line of the fish ledger. Lines are only ever added: a correction is another line, with a negative number when the first said
/// too much.
/// </summary>
public sealed class LedgerEntry
{
    public long Id { get; init; }

    /// <summary>The form's own id, so that a line sent twice is one line; null for lines that come with something else.</summary>
    public Guid? SenderId { get; init; }

    public Guid SeasonId { get; init; }

    public Guid TankId { get; init; }

    public LedgerKind Kind { get; init; }

    /// <summary>Eggs or fish; negative only in a correction.</summary>
    public int Count { get; init; }

    /// <summary>When it happened, UTC.</summary>
    public DateTime At { get; init; }

    public DateTime EnteredAt { get; init; }

    public Guid? EnteredBy { get; init; }

    public CountMethod? CountedBy { get; init; }

    /// <summary>True when the number was given as "about".</summary>
    public bool About { get; init; }

    /// <summary>Sender's id of the reading that brought it, for losses a class removed and counted.</summary>
    public Guid? Reading { get; init; }

    public Guid? ReleaseId { get; init; }

    /// <summary>Both halves of a transfer carry the same id.</summary>
    public Guid? TransferId { get; init; }

    /// <summary>The line this one corrects.</summary>
    public long? CorrectsId { get; init; }

    public string? Note { get; init; }
}
