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
        LedgerEntry? count = null;
        var all = entries.ToList();
        foreach (var entry in all)
        {
            if (entry.Kind == LedgerKind.Counted)
            {
                count = count is null || IsLater(entry, count) ? entry : count;
            }
            else
            {
                sums[entry.Kind] = sums.GetValueOrDefault(entry.Kind) + entry.Count;
            }
        }

        var balance = FromSums(sums);
        var left = balance.In - balance.Out;
        var still = closed ? 0 : count is null ? left : count.Count + all.Where(e => IsLater(e, count)).Sum(NetChange);

        // A tank cannot hold fewer than no fish: what the entries took too much stays visible as unaccounted.
        still = Math.Max(0, still);
        return balance with { StillInTank = still, Unaccounted = left - still };
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

    /// <summary>In the order things happened; at the same instant, in the order they were entered.</summary>
    private static bool IsLater(LedgerEntry entry, LedgerEntry than) =>
        entry.At > than.At || (entry.At == than.At && entry.Id > than.Id);

    private static int NetChange(LedgerEntry entry) => entry.Kind switch
    {
        LedgerKind.Received or LedgerKind.TransferredIn => entry.Count,
        LedgerKind.Counted => 0,
        _ => -entry.Count,
    };
}
