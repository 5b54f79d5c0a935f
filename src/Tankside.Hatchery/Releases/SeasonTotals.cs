using Tankside.Science.Losses;

namespace Tankside.Hatchery.Releases;

/// <summary>One tank's line of the account to the agency.</summary>
public sealed record TankTotals(
    string School,
    string Classroom,
    string Tank,
    string Lot,
    string Species,
    TankBalance Balance,
    DateOnly? HatchDate,
    DateOnly? FirstReleaseDate,
    string? ReleaseSite,
    string? Permit)
{
    /// <summary>Egg to release: released out of those received here, moved in included, moved out left out.</summary>
    public Survival Survival => Survival.EggToRelease(Balance);
}

/// <summary>A named survival with its 95% Wilson interval, in percent; null where the question has no answer yet.</summary>
public sealed record Survival(double? Percent, double? Low, double? High)
{
    public static readonly Survival Unknown = new(null, null, null);

    /// <summary>
    /// Released / (received + transferred in - transferred out). Blank while fish are in the tank or when the denominator is not
    /// positive; without an interval when more were released than were ever received (counts have errors).
    /// </summary>
    public static Survival EggToRelease(TankBalance balance)
    {
        var of = balance.Received + balance.TransferredIn - balance.TransferredOut;
        return balance.StillInTank > 0 || of <= 0 ? Unknown : Of(balance.Released, of);
    }

    public static Survival Of(int alive, int of)
    {
        var percent = 100.0 * alive / of;
        if (alive < 0 || alive > of)
        {
            return new Survival(percent, null, null);
        }

        var (low, high) = Wilson.Interval(alive, of);
        return new Survival(percent, 100 * low, 100 * high);
    }
}

/// <summary>Fish of one tank let go at one site under one permit, as the account names them.</summary>
/// <param name="Species">Species code of the permit.</param>
/// <param name="ReportDueOn">The last day on which the agency expects the report.</param>
/// <param name="ReportedOn">The day on which somebody said that the report was sent; null while it is not.</param>
public sealed record ReleaseTotals(
    string Tank, string School, string Species, string Site, string Water, string Permit, DateOnly Day, int Fish, bool About,
    DateOnly ReportDueOn, DateOnly? ReportedOn)
{
    /// <summary>Sent after its day, or not sent and the day is past.</summary>
    public bool IsLate(DateOnly today) => (ReportedOn ?? today) > ReportDueOn;
}

/// <summary>A permit and what it allows.</summary>
/// <param name="ReleasedEver">Fish released under it in any season; a permit may outlast one.</param>
public sealed record PermitTotals(string Number, string Species, string Water, int Allowed, DateOnly From, DateOnly To, int ReleasedEver);

/// <summary>Fish or eggs that went from one tank to another, corrections taken off.</summary>
public sealed record FishMove(string From, string To, int Count);

/// <summary>That an account was closed, when, and the SHA-256 of the CSV file it gives.</summary>
public sealed record SealMark(DateTime At, string Checksum);

/// <summary>A whole season's account. Every file and page is written from this one record, so that they cannot disagree.</summary>
public sealed record SeasonTotals(string Programme, string Season, IReadOnlyList<TankTotals> Tanks)
{
    public DateOnly? StartsOn { get; init; }

    public DateOnly? EndsOn { get; init; }

    /// <summary>When the newest line of it was entered, UTC: the files carry this time and not the clock's, so that the same account is the same file.</summary>
    public DateTime? EnteredUntil { get; init; }

    public IReadOnlyList<ReleaseTotals> Releases { get; init; } = [];

    public IReadOnlyList<PermitTotals> Permits { get; init; } = [];

    public IReadOnlyList<FishMove> Moves { get; init; } = [];

    /// <summary>Set when this is the account of a sealed season, as it stood then.</summary>
    public SealMark? Seal { get; init; }

    public TankBalance Sum => TankBalance.SumOf(Tanks.Select(t => t.Balance));

    /// <summary>The sum as seen from outside: a move between two of the tanks is neither a way in nor an end.</summary>
    public TankBalance Across => Sum is var sum && Math.Min(sum.TransferredIn, sum.TransferredOut) is var within
        ? sum with { TransferredIn = sum.TransferredIn - within, TransferredOut = sum.TransferredOut - within }
        : sum;

    /// <summary>Egg to release over the tanks that have finished, with what the others could still make of it.</summary>
    public PooledSurvival Pooled => PooledSurvival.Over([.. Tanks.Select(t => t.Balance)]);
}
