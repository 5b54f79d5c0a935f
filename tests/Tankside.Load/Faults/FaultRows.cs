using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Load.Faults;

/// <summary>Rows that the demo season has not in the size that is needed here.</summary>
/// <param name="Driver">The code of the sheet of a driver of the run to come.</param>
/// <param name="Stop">A stop of that run.</param>
public sealed record FaultRows(ReleaseSite Site, Permit Permit, string Driver, Guid Stop)
{
    private const int MoreThanAreLetGo = 1_000_000;

    /// <param name="tank">The tank that fish are let go from.</param>
    public static async Task<FaultRows> AddAsync(HatcheryDb db, Guid tank)
    {
        var today = DateOnly.FromDateTime(DateTime.UtcNow);
        var programme = await db.Tanks.Where(t => t.Id == tank).Select(t => t.ProgrammeId).SingleAsync();
        var species = await (from receipt in db.Receipts join lot in db.EggLots on receipt.LotId equals lot.Id where receipt.TankId == tank select lot.Species).FirstAsync();
        var site = new ReleaseSite { Id = Guid.NewGuid(), ProgrammeId = programme, Name = "Long riffle", Water = "Long Riffle Creek" };
        var permit = new Permit
        {
            Id = Guid.NewGuid(),
            ProgrammeId = programme,
            Number = "LR-1",
            Species = species,
            Water = site.Water,
            Fish = MoreThanAreLetGo,
            From = today.AddDays(-30),
            To = today.AddDays(30),
        };
        db.AddRange(site, permit);
        await db.SaveChangesAsync();
        var coming = await db.DeliveryRuns.OrderByDescending(r => r.On).Select(r => r.Id).FirstAsync();
        return new FaultRows(
            site, permit,
            await db.RunDrivers.Where(d => d.RunId == coming).Select(d => d.Code).FirstAsync(),
            await db.RunStops.Where(s => s.RunId == coming).Select(s => s.Id).FirstAsync());
    }
}
