namespace Tankside.Hatchery.Releases;

/// <summary>What one counter counted in a tank's bucket. A count is never changed; a recount is another turn.</summary>
public sealed class TallyCount
{
    public Guid Id { get; init; }

    public Guid BookingId { get; init; }

    public Guid TankId { get; init; }

    /// <summary>1 for the first counting, 2 for the recount, and so on.</summary>
    public int Turn { get; init; }

    /// <summary>1 or 2: there are two counters.</summary>
    public int Seat { get; init; }

    /// <summary>The adult who counted, by name.</summary>
    public required string Counter { get; init; }

    public int Fish { get; init; }

    public DateTime At { get; init; }

    public Guid EnteredBy { get; init; }

    /// <summary>Set when two counts differed and somebody said that this one stands.</summary>
    public DateTime? StandsAt { get; set; }

    public Guid? StandsBy { get; set; }

    public int Version { get; set; }
}

/// <summary>Where the counting of one tank is.</summary>
public abstract record TallyState
{
    /// <summary>The counter of this turn and seat is awaited.</summary>
    public sealed record Waits(int Turn, int Seat) : TallyState;

    /// <summary>Both have counted, and not the same.</summary>
    public sealed record Differs(TallyCount First, TallyCount Second) : TallyState;

    /// <summary>This number goes into the ledger.</summary>
    public sealed record Stands(int Fish, TallyCount First, TallyCount Second, bool Named) : TallyState;
}

/// <summary>Two adults count, each without the other's number; the number that both found stands, or the one that somebody names.</summary>
public static class Tally
{
    /// <param name="counts">Of one tank of one booking.</param>
    public static TallyState Of(IReadOnlyCollection<TallyCount> counts)
    {
        if (counts.Count == 0)
        {
            return new TallyState.Waits(1, 1);
        }

        var turn = counts.Max(c => c.Turn);
        var last = counts.Where(c => c.Turn == turn).OrderBy(c => c.Seat).ToList();
        return last switch
        {
            [var only] => new TallyState.Waits(turn, 3 - only.Seat),
            [var one, var two] when one.Fish == two.Fish => new TallyState.Stands(one.Fish, one, two, Named: false),
            [var one, var two] when last.Find(c => c.StandsAt is not null) is { } named => new TallyState.Stands(named.Fish, one, two, Named: true),
            [var one, var two] => new TallyState.Differs(one, two),
            _ => throw new InvalidOperationException("a turn has two seats"),
        };
    }
}
