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

/// <summary>A whole season's account. Every file and page is written from this one record, so that they cannot disagree.</summary>
public sealed record SeasonTotals(string Programme, string Season, IReadOnlyList<TankTotals> Tanks)
{
    public TankBalance Sum => TankBalance.SumOf(Tanks.Select(t => t.Balance));

    /// <summary>Egg to release over the tanks that have finished, with what the others could still make of it.</summary>
    public PooledSurvival Pooled => PooledSurvival.Over([.. Tanks.Select(t => t.Balance)]);
}
