using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Tests.Eggs.Runs;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Releases.Lots;

/// <summary>The page of a lot tells its whole way: pack, driver, tank, and where its fish were moved to.</summary>
public class LotCustodyTests
{
    [Theory, BothDatabases]
    public async Task A_lot_is_followed_from_the_driver_through_every_move_that_stands(DatabaseKind kind)
    {
        var (host, world, run, client) = await RunSteps.StartAsync(kind);
        await using var _ = host;
        await host.PlanAsync(client, run.Run.Id);
        var first = (await host.StopsAsync(run.Run.Id)).Single(s => s.TankId == world.One.Tanks[0].Id);
        var driver = run.Drivers.Single(d => d.Id == first.DriverId);
        await host.Anonymous().TickAsync(driver.Code, Guid.NewGuid(), $"{first.Id}", TickDeed.HandedOver);
        var (moved, undone) = (Guid.NewGuid(), Guid.NewGuid());
        await host.SeedAsync(db => db.AddRange(
            Line(world, 0, LedgerKind.TransferredOut, 20, moved), Line(world, 1, LedgerKind.TransferredIn, 20, moved),
            Line(world, 0, LedgerKind.TransferredOut, 7, undone), Line(world, 1, LedgerKind.TransferredIn, 7, undone),
            Line(world, 0, LedgerKind.TransferredOut, -7, undone), Line(world, 1, LedgerKind.TransferredIn, -7, undone)));

        var page = await client.ReadAsync("/lots/L1");

        Assert.Contains($"<td data-label=\"Driver\">{driver.Name}</td>", page, StringComparison.Ordinal);
        Assert.Contains($"20 fish from <a href=\"/ledger/A001\">A001</a> to <a href=\"/ledger/A002\">A002</a>, entered by {world.One.People[Role.Coordinator].Name}.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("7 fish from", page, StringComparison.Ordinal);
    }

    private static LedgerEntry Line(TestWorld world, int tank, LedgerKind kind, int count, Guid act) => new()
    {
        SeasonId = world.One.Season.Id,
        TankId = world.One.Tanks[tank].Id,
        Kind = kind,
        Count = count,
        At = TestWorld.Now.AddHours(-3),
        EnteredAt = TestWorld.Now.AddHours(-2),
        EnteredBy = world.One.People[Role.Coordinator].Id,
        TransferId = act,
    };
}
