namespace Tankside.Storage;

/// <summary>
/// "This tank has a fact that nobody has judged yet." Written in the same transaction as the fact, removed in the same transaction as its
/// judgement: a crash between the two loses nothing. Rows are only added and removed, so writers never wait for one another.
/// </summary>
public sealed class UnjudgedFact
{
    public long Id { get; init; }

    public Guid TankId { get; init; }

    /// <summary>When the fact happened, UTC; its local day is folded again.</summary>
    public DateTime At { get; init; }
}
