namespace Tankside.Hatchery.Releases;

/// <summary>
/// The closing of a season's account. What went to the agency is kept as it was; what is entered later stands in the ledger and beside the
/// seal, never in the account, until somebody opens the season again and says why.
/// </summary>
public sealed class SeasonSeal
{
    public Guid Id { get; init; }

    public Guid SeasonId { get; init; }

    public DateTime SealedAt { get; init; }

    public Guid SealedBy { get; init; }

    /// <summary>SHA-256 of the account's CSV file, in hexadecimal, so that whoever holds the file can tell that it is this one.</summary>
    public required string Checksum { get; init; }

    /// <summary>The account as it stood, packed.</summary>
    public required byte[] Account { get; init; }

    /// <summary>Set when the season was opened again; then the seal is history.</summary>
    public DateTime? ReopenedAt { get; set; }

    public Guid? ReopenedBy { get; set; }

    public string? ReopenedBecause { get; set; }

    public int Version { get; set; }
}

/// <summary>Why an account cannot be closed.</summary>
public enum SealRefusal
{
    NothingReceived,

    /// <summary>A tank still holds fish: the account is not at its end.</summary>
    FishInTanks,

    /// <summary>A row whose two sides differ is a fault of the program, and nothing to sign.</summary>
    DoesNotBalance,
}

public static class SealRules
{
    public static IEnumerable<SealRefusal> Check(SeasonTotals totals)
    {
        if (totals.Tanks.All(t => t.Balance.In == 0))
        {
            yield return SealRefusal.NothingReceived;
        }

        if (totals.Tanks.Any(t => t.Balance.StillInTank > 0))
        {
            yield return SealRefusal.FishInTanks;
        }

        if (totals.Tanks.Any(t => !t.Balance.Balances))
        {
            yield return SealRefusal.DoesNotBalance;
        }
    }
}
