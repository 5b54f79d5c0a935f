using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Tests.Releases;

/// <summary>Ledger lines for tests: one an hour in the order they are written here, numbered as a database would.</summary>
internal sealed class Lines
{
    private static readonly DateTime Start = new(2027, 1, 15, 16, 0, 0, DateTimeKind.Utc);

    private readonly List<LedgerEntry> all = [];

    public IReadOnlyList<LedgerEntry> All => all;

    public Lines Add(LedgerKind kind, int count, int? hour = null, long? corrects = null)
    {
        var id = all.Count + 1;
        all.Add(new LedgerEntry { Id = id, Kind = kind, Count = count, At = Start.AddHours(hour ?? id), CorrectsId = corrects });
        return this;
    }

    public TankBalance Open => TankBalance.Of(all, closed: false);

    public TankBalance Closed => TankBalance.Of(all, closed: true);
}
