namespace Tankside.Hatchery.Releases;

/// <summary>
/// Where a tank's eggs went, from its ledger. For every balance:
/// received + transferred in = dead on arrival + losses + put down + sampled + transferred out + released + still in tank + unaccounted.
/// </summary>
public sealed record TankBalance
{
    public int Received { get; init; }

    public int DeadOnArrival { get; init; }

    public int EggLosses { get; init; }

    public int AlevinLosses { get; init; }

    public int FryLosses { get; init; }

    public int PutDown { get; init; }

    public int Sampled { get; init; }

    public int TransferredIn { get; init; }

    public int TransferredOut { get; init; }

    public int Released { get; init; }

    public int StillInTank { get; init; }

    /// <summary>What no entry explains: eaten, dissolved, miscounted at the start. It may be negative and is never hidden.</summary>
    public int Unaccounted { get; init; }

    public int In => Received + TransferredIn;

    public int Out => DeadOnArrival + EggLosses + AlevinLosses + FryLosses + PutDown + Sampled + TransferredOut + Released;

    public bool Balances => In == Out + StillInTank + Unaccounted;

    /// <summary>
    /// Folds a tank's entries. Before any count, what is left is taken to be in the tank; after one, the count less what left since
    /// (and more what came); a closed tank holds nothing.
    /// </summary>
    public static TankBalance Of(IEnumerable<LedgerEntry> entries, bool closed)
    {
        var sums = new Dictionary<LedgerKind, int>();
        var all = entries.ToList();
        foreach (var entry in all.Where(e => e.Kind != LedgerKind.Counted))
        {
            sums[entry.Kind] = sums.GetValueOrDefault(entry.Kind) + entry.Count;
        }

        var balance = FromSums(sums);
        var left = balance.In - balance.Out;
        var count = LastCount(all);
        var still = closed ? 0 : count is null ? left : count.Count + all.Where(e => IsLater(e, count)).Sum(NetChange);

        // A tank cannot hold fewer than no fish: what the entries took too much stays visible as unaccounted.
        still = Math.Max(0, still);
        return balance with { StillInTank = still, Unaccounted = left - still };
    }

    /// <summary>The sums of several tanks. A move between two of them is in both its sums and cancels out of the account.</summary>
    public static TankBalance SumOf(IEnumerable<TankBalance> balances) => balances.Aggregate(new TankBalance(), (a, b) => new TankBalance
    {
        Received = a.Received + b.Received,
        DeadOnArrival = a.DeadOnArrival + b.DeadOnArrival,
        EggLosses = a.EggLosses + b.EggLosses,
        AlevinLosses = a.AlevinLosses + b.AlevinLosses,
        FryLosses = a.FryLosses + b.FryLosses,
        PutDown = a.PutDown + b.PutDown,
        Sampled = a.Sampled + b.Sampled,
        TransferredIn = a.TransferredIn + b.TransferredIn,
        TransferredOut = a.TransferredOut + b.TransferredOut,
        Released = a.Released + b.Released,
        StillInTank = a.StillInTank + b.StillInTank,
        Unaccounted = a.Unaccounted + b.Unaccounted,
    });

    /// <summary>The newest count of the living; one that was taken back by a correction never happened.</summary>
    public static LedgerEntry? LastCount(IReadOnlyList<LedgerEntry> all)
    {
        var takenBack = all.Select(e => e.CorrectsId).OfType<long>().ToHashSet();
        return all.Where(e => e.Kind == LedgerKind.Counted && e.CorrectsId is null && !takenBack.Contains(e.Id))
            .Aggregate((LedgerEntry?)null, (last, e) => last is null || IsLater(e, last) ? e : last);
    }

    private static TankBalance FromSums(Dictionary<LedgerKind, int> sums) => new()
    {
        Received = sums.GetValueOrDefault(LedgerKind.Received),
        DeadOnArrival = sums.GetValueOrDefault(LedgerKind.DeadOnArrival),
        EggLosses = sums.GetValueOrDefault(LedgerKind.EggLoss),
        AlevinLosses = sums.GetValueOrDefault(LedgerKind.AlevinLoss),
        FryLosses = sums.GetValueOrDefault(LedgerKind.FryLoss),
        PutDown = sums.GetValueOrDefault(LedgerKind.PutDown),
        Sampled = sums.GetValueOrDefault(LedgerKind.Sampled),
        TransferredIn = sums.GetValueOrDefault(LedgerKind.TransferredIn),
        TransferredOut = sums.GetValueOrDefault(LedgerKind.TransferredOut),
        Released = sums.GetValueOrDefault(LedgerKind.Released),
    };

    /// <summary>In the order things happened; at the same instant, in the order they were entered, a correction with what it corrects.</summary>
    private static bool IsLater(LedgerEntry entry, LedgerEntry than) =>
        entry.At > than.At || (entry.At == than.At && (entry.CorrectsId ?? entry.Id) > than.Id);

    private static int NetChange(LedgerEntry entry) => entry.Kind switch
    {
        LedgerKind.Received or LedgerKind.TransferredIn => entry.Count,
        LedgerKind.Counted => 0,
        _ => -entry.Count,
    };
}
