using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests.Eggs.Runs;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases;

public class ArrivalTests
{
    [Theory, BothDatabases]
    public async Task An_arrival_is_a_receipt_in_the_ledger_once_and_more_than_a_tenth_dead_is_told(DatabaseKind kind)
    {
        var (host, world, run, coordinator) = await RunSteps.StartAsync(kind);
        await using var _ = host;
        var before = await host.BalanceAsync(world.One.Tanks[0]);
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        var address = $"/runs/{run.Run.Id}/stops/{run.Stops[0].Id}/arrival";
        Assert.Contains("Float the closed bag", await teacher.ReadAsync(address), StringComparison.Ordinal);

        var refused = await teacher.RefusedAsync(address, Fields(("Count", "120"), ("DeadOnArrival", "4"), ("CountedBy", "Subtraction")), "arrival");
        Assert.Contains("The pack was of 100. Say in the note why more are entered", refused, StringComparison.Ordinal);
        Assert.Contains("is not a count", refused, StringComparison.Ordinal);
        Assert.Contains("Name the adult who took the eggs over.", refused, StringComparison.Ordinal);
        Assert.Equal(before, await host.BalanceAsync(world.One.Tanks[0]));

        var form = Fields(
            ("Count", "98"), ("DeadOnArrival", "12"), ("CountedBy", "Photo"), ("BoxTemperature", "44"), ("TankTemperature", "51"), ("Tempered", "40"), ("ReceivedBy", "Front office"));
        var told = await teacher.SendAsync(address, form, "arrival");
        Assert.Contains("12 of 98 eggs were dead on arrival: the coordinator is told.", told, StringComparison.Ordinal);

        var after = await host.BalanceAsync(world.One.Tanks[0]);
        Assert.Equal((before.Received + 98, before.DeadOnArrival + 12), (after.Received, after.DeadOnArrival));
        await using var db = host.OpenDb();
        var receipt = await db.Receipts.SingleAsync(r => r.StopId == run.Stops[0].Id);
        Assert.Equal(("R9", 40, "Front office", CountMethod.Photo), (receipt.Run, receipt.TemperedMinutes, receipt.ReceivedBy, receipt.CountedBy));
        var letter = await db.OutgoingLetters.SingleAsync();
        Assert.Equal("A001: 12 eggs dead on arrival", letter.Subject);
        Assert.StartsWith("arrival ", letter.Key, StringComparison.Ordinal);
        Assert.Equal(PackPlace.AtTheTank, Custody.Of(run.Stops[0].Id, 100, await db.RunTicks.ToListAsync()).Place);
        Assert.Contains("12 of 98 eggs were dead on arrival. Ring the class", await coordinator.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task One_pack_arrives_once_however_many_enter_it_at_the_same_moment(DatabaseKind kind)
    {
        var (host, world, run, client) = await RunSteps.StartAsync(kind);
        await using var _ = host;
        var before = await host.BalanceAsync(world.One.Tanks[0]);
        var form = Fields(("Count", "100"), ("CountedBy", "Hand"), ("ReceivedBy", "Front office"));
        var sending = await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => client.OpenFormAsync($"/runs/{run.Run.Id}/stops/{run.Stops[0].Id}/arrival", form, "arrival")));

        await Task.WhenAll(sending.Select(send => send()));

        Assert.Equal(before.Received + 100, (await host.BalanceAsync(world.One.Tanks[0])).Received);
    }
}
