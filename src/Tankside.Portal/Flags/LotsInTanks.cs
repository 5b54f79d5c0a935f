using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Portal.Places;
using Tankside.Portal.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>The lot that a tank holds, by the clock of its programme.</summary>
/// <param name="Came">When its eggs came, UTC.</param>
public sealed record LotInTank(EggLot Lot, Guid SeasonId, DateTime Came, string? Run, ProgrammeClock Clock, OwnTables Tables)
{
    public Guid LotId => Lot.Id;

    public LotProfile Profile { get; } = Tables.ProfileOf(Lot, Clock.Day(Came), Run);

    /// <summary>The same lot as another tank holds it.</summary>
    public LotProfile ProfileIn(DateTime came, string? run) => Tables.ProfileOf(Lot, Clock.Day(came), run);
}

/// <summary>The lot that each tank holds now: that of its newest receipt.</summary>
public static class LotsInTanks
{
    private static readonly Compiled<IReadOnlyList<Guid>, Row> Received = new((db, tankIds) =>
        from receipt in db.Receipts.AsNoTracking()
        join lot in db.EggLots on receipt.LotId equals lot.Id
        where tankIds.Contains(receipt.TankId)
        orderby receipt.At
        select new Row(receipt.TankId, receipt.SeasonId, receipt.At, receipt.Run, lot));

    private sealed record Row(Guid TankId, Guid SeasonId, DateTime At, string? Run, EggLot Lot);

    public static async Task<Dictionary<Guid, LotInTank>> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, Surroundings surroundings, CancellationToken cancel)
    {
        var rows = await Received.ToListAsync(db, tankIds, cancel);
        var tables = await OwnTables.LoadAsync(db, rows.Select(r => r.Lot), cancel);
        var lots = new Dictionary<Guid, LotInTank>();
        foreach (var row in rows.Where(r => surroundings.Knows(r.TankId)))
        {
            lots[row.TankId] = new LotInTank(row.Lot, row.SeasonId, row.At, row.Run, surroundings.Of(row.TankId).Calendar.Clock, tables);
        }

        return lots;
    }
}
