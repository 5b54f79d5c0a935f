namespace Tankside.Hatchery.Releases;

/// <summary>Why a line is not taken into the ledger.</summary>
public enum LineRefusal
{
    /// <summary>A loss or a move of nothing; a count of the living may be nought.</summary>
    NothingCounted,
    TooMany,
    InTheFuture,
    BeforeTheSeason,

    /// <summary>A closed tank holds nothing, so nothing can come to it or be counted in it.</summary>
    TankClosed,

    /// <summary>More dead on arrival than arrived.</summary>
    MoreDeadThanCame,

    /// <summary>More eggs than were allotted, and no word why.</summary>
    OverAllotment,

    /// <summary>Fish of two lots mixed, and no word why.</summary>
    OtherLot,

    /// <summary>From a tank to itself.</summary>
    SameTank,
}

/// <summary>Why a line cannot be taken back here.</summary>
public enum CorrectionRefusal
{
    AlreadyCorrected,
    IsACorrection,

    /// <summary>It came with a reading; correcting the reading corrects it.</summary>
    OfAReading,

    /// <summary>It came with a release; withdrawing the release takes it back.</summary>
    OfARelease,
}

/// <summary>What may be entered into the ledger by hand, and when.</summary>
public static class LedgerRules
{
    /// <summary>Nobody has more in one tank; a longer number is a slip of the hand (no source).</summary>
    public const int MostAtOnce = 100_000;

    /// <summary>A clock that runs ahead: a time this far in the future is taken as now.</summary>
    public static readonly TimeSpan ClockSlack = TimeSpan.FromMinutes(10);

    /// <summary>
    /// Lines that are one number and a time. Eggs received, moves and releases carry more and are entered as such. There is no line for
    /// "what must be left": taking the dead that were found from the start is not a count, because most dead are never found.
    /// </summary>
    public static IReadOnlyList<LedgerKind> EnteredAlone { get; } =
    [
        LedgerKind.EggLoss, LedgerKind.AlevinLoss, LedgerKind.FryLoss, LedgerKind.PutDown, LedgerKind.Sampled, LedgerKind.Counted,
    ];

    /// <param name="seasonStarts">First instant of the season, UTC.</param>
    public static IEnumerable<LineRefusal> Check(LedgerKind kind, int count, DateTime at, DateTime now, DateTime seasonStarts, bool tankClosed)
    {
        if (count < 0 || (count == 0 && kind != LedgerKind.Counted))
        {
            yield return LineRefusal.NothingCounted;
        }

        if (count > MostAtOnce)
        {
            yield return LineRefusal.TooMany;
        }

        if (at > now + ClockSlack)
        {
            yield return LineRefusal.InTheFuture;
        }

        if (at < seasonStarts)
        {
            yield return LineRefusal.BeforeTheSeason;
        }

        if (tankClosed && kind is LedgerKind.Received or LedgerKind.TransferredIn or LedgerKind.Counted)
        {
            yield return LineRefusal.TankClosed;
        }
    }

    /// <param name="allotted">Eggs promised to this tank in the season.</param>
    /// <param name="received">Eggs it received before.</param>
    public static IEnumerable<LineRefusal> CheckReceipt(int eggs, int deadOnArrival, int allotted, int received, bool hasNote)
    {
        if (deadOnArrival > eggs)
        {
            yield return LineRefusal.MoreDeadThanCame;
        }

        if ((long)received + eggs > allotted && !hasNote)
        {
            yield return LineRefusal.OverAllotment;
        }
    }

    public static IEnumerable<LineRefusal> CheckMove(Guid from, Guid to, bool sameLot, bool hasNote)
    {
        if (from == to)
        {
            yield return LineRefusal.SameTank;
        }
        else if (!sameLot && !hasNote)
        {
            yield return LineRefusal.OtherLot;
        }
    }

    /// <summary>Null when the line may be taken back by an opposite one.</summary>
    public static CorrectionRefusal? CheckCorrection(LedgerEntry line, bool alreadyCorrected) => line switch
    {
        { CorrectsId: not null } => CorrectionRefusal.IsACorrection,
        { Reading: not null } => CorrectionRefusal.OfAReading,
        { ReleaseId: not null } => CorrectionRefusal.OfARelease,
        _ when alreadyCorrected => CorrectionRefusal.AlreadyCorrected,
        _ => null,
    };
}
