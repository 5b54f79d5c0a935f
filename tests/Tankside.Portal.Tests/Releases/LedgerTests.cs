using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases;

public class LedgerTests
{
    [Theory, BothDatabases]
    public async Task A_season_in_the_ledger_from_losses_to_the_closed_tank(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        await teacher.SendAsync("/ledger/A001", Line(LedgerKind.EggLoss, "5", ("Note", "white ones")), "line");
        host.Time.Advance(TimeSpan.FromMinutes(5));
        var counted = await teacher.SendAsync("/ledger/A001", Line(LedgerKind.Counted, "138", ("About", "true")), "line");

        Assert.Contains("A001 now holds 138, and 5 are unaccounted for.", counted, StringComparison.Ordinal);
        Assert.Contains("150 eggs came in; 0 are released, 138 are still in the tank, 7 died, 5 are unaccounted for.", counted, StringComparison.Ordinal);
        Assert.Contains("about 138", counted, StringComparison.Ordinal);

        var loss = await LineIdAsync(host, LedgerKind.EggLoss);
        host.Time.Advance(TimeSpan.FromMinutes(5));
        await teacher.SendAsync($"/ledger/A001/correct/{loss}", Fields(("RightCount", "3"), ("Why", "two were bubbles")), "correct");
        var balance = await host.BalanceAsync(world.One.Tanks[0]);
        Assert.Equal((3, 138, 7), (balance.EggLosses, balance.StillInTank, balance.Unaccounted));

        Assert.Contains("The ledger still leaves 138 in A001.", await teacher.ReadAsync("/ledger/A001/close"), StringComparison.Ordinal);
        var closed = await teacher.SendAsync("/ledger/A001/close", [], "close");
        Assert.Contains("138 that the ledger still left in it are unaccounted for now.", closed, StringComparison.Ordinal);
        Assert.Equal(145, (await host.BalanceAsync(world.One.Tanks[0])).Unaccounted);

        await teacher.SendAsync("/ledger/A001/close", [], "open");
        Assert.Equal(138, (await host.BalanceAsync(world.One.Tanks[0])).StillInTank);
    }

    [Theory, BothDatabases]
    public async Task A_form_sent_twice_is_one_line(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var form = Line(LedgerKind.FryLoss, "4", ("Id", Guid.NewGuid().ToString()));

        var pages = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => client.PostFormAsync("/ledger/A001", form, "line")));

        Assert.All(pages, p => Assert.Equal(HttpStatusCode.Redirect, p.StatusCode));
        Assert.Equal(4, (await host.BalanceAsync(world.One.Tanks[0])).FryLosses);
    }

    [Theory, BothDatabases]
    public async Task A_line_is_taken_back_once_however_many_ask(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        await client.SendAsync("/ledger/A001", Line(LedgerKind.Sampled, "6"), "line");
        var line = await LineIdAsync(host, LedgerKind.Sampled);

        // All have the page open before the first of them sends it: afterwards there is nothing left to ask for.
        var asking = await Task.WhenAll(Enumerable.Range(0, 4).Select(i => client.OpenFormAsync(
            $"/ledger/A001/correct/{line}", Fields(("Why", $"try {i}"), ("Id", Guid.NewGuid().ToString())), "correct")));
        await Task.WhenAll(asking.Select(send => send()));

        await using var db = host.OpenDb();
        Assert.Equal(-6, Assert.Single(await db.Ledger.Where(e => e.CorrectsId == line).ToListAsync()).Count);
        Assert.Equal(0, (await host.BalanceAsync(world.One.Tanks[0])).Sampled);
        Assert.Contains("This line has been taken back already.", await client.ReadAsync($"/ledger/A001/correct/{line}"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_move_writes_both_halves_and_is_taken_back_in_both(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var form = Fields(("To", "A002"), ("Count", "40"), ("Id", Guid.NewGuid().ToString()));

        await client.SendAsync("/ledger/A001/move", form, "move");
        var page = await client.SendAsync("/ledger/A001/move", form, "move");
        Assert.Contains("it stands in the ledger once", page, StringComparison.Ordinal);

        Assert.Equal((40, 108), await EndsAsync(b => b.TransferredOut, 0));
        Assert.Equal((40, 188), await EndsAsync(b => b.TransferredIn, 1));
        var out1 = await LineIdAsync(host, LedgerKind.TransferredOut);
        await client.SendAsync($"/ledger/A001/correct/{out1}", Fields(("RightCount", "30"), ("Why", "counted again")), "correct");
        Assert.Equal((30, 118), await EndsAsync(b => b.TransferredOut, 0));
        Assert.Equal((30, 178), await EndsAsync(b => b.TransferredIn, 1));

        async Task<(int Moved, int Still)> EndsAsync(Func<TankBalance, int> of, int tank)
        {
            var balance = await host.BalanceAsync(world.One.Tanks[tank]);
            return (of(balance), balance.StillInTank);
        }
    }

    [Theory, BothDatabases]
    public async Task Two_lots_are_put_together_only_with_a_word(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db =>
        {
            var other = new EggLot
            {
                Id = Guid.NewGuid(),
                ProgrammeId = world.One.Programme.Id,
                SeasonId = world.One.Season.Id,
                Code = "L2",
                Species = world.One.Lot.Species,
                FertilisedFrom = new(2027, 1, 2),
                FertilisedTo = new(2027, 1, 2),
                HatcheryMeanC = 9,
            };
            db.AddRange(other, new Receipt { Id = Guid.NewGuid(), SeasonId = other.SeasonId, TankId = world.One.Tanks[1].Id, LotId = other.Id, At = host.Now.AddDays(-1), Eggs = 10 });
        });
        var client = await host.ClientAs(Role.Coordinator, world.One);

        var refused = await client.RefusedAsync("/ledger/A001/move", Fields(("To", "A002"), ("Count", "10")), "move");
        Assert.Contains("The two tanks hold different lots.", refused, StringComparison.Ordinal);
        Assert.Equal(0, (await host.BalanceAsync(world.One.Tanks[1])).TransferredIn);

        await client.SendAsync("/ledger/A001/move", Fields(("To", "A002"), ("Count", "10"), ("Note", "chiller broke")), "move");
        Assert.Equal(10, (await host.BalanceAsync(world.One.Tanks[1])).TransferredIn);
    }

    [Theory, BothDatabases]
    public async Task More_eggs_than_allotted_need_a_note_and_then_stand_with_their_receipt(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, world.One);
        var form = Fields(
            ("Lot", world.One.Lot.Id.ToString()), ("Count", "1,050"), ("DeadOnArrival", "7"), ("BoxTemperature", "46"), ("TankTemperature", "10,5 C"), ("Unit", "F"));

        var refused = await client.RefusedAsync("/ledger/A001/received", form, "receipt");
        Assert.Contains("These are more eggs than were allotted", refused, StringComparison.Ordinal);
        Assert.Contains("1,050", refused, StringComparison.Ordinal);

        form["Input.Note"] = "the coordinator agreed";
        await client.SendAsync("/ledger/A001/received", form, "receipt");
        await using var db = host.OpenDb();
        var receipt = await db.Receipts.SingleAsync(r => r.Eggs == 1050);
        Assert.Equal((7, 10.5), (receipt.DeadOnArrival, receipt.TankC));
        Assert.Equal(7.78, receipt.BoxC!.Value, 2);
        var balance = await host.BalanceAsync(world.One.Tanks[0]);
        Assert.Equal((1200, 9), (balance.Received, balance.DeadOnArrival));
    }

    [Theory, BothDatabases]
    public async Task What_is_wrong_is_told_at_its_field_and_what_was_typed_is_kept(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        var page = await client.RefusedAsync("/ledger/A001", Line(LedgerKind.EggLoss, "a few", ("Day", "2027-02-04"), ("Note", "seen in the basket")), "line");
        Assert.Contains("“a few” is not a whole number", page, StringComparison.Ordinal);
        Assert.Contains("value=\"a few\"", page, StringComparison.Ordinal);
        Assert.Contains("seen in the basket", page, StringComparison.Ordinal);

        var future = await client.RefusedAsync("/ledger/A001", Line(LedgerKind.EggLoss, "3", ("Day", "2027-02-04")), "line");
        Assert.Contains("This is still to come.", future, StringComparison.Ordinal);
        var released = await client.RefusedAsync("/ledger/A001", Line(LedgerKind.Released, "3"), "line");
        Assert.Contains("have their own forms", released, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(2, await db.Ledger.CountAsync(e => e.TankId == world.One.Tanks[0].Id));
    }

    [Theory, BothDatabases]
    public async Task A_tank_whose_ledger_changed_meanwhile_is_not_closed_on_an_old_number(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        var page = await client.RefusedAsync("/ledger/A001/close", Fields(("LeftAsShown", "150")), "close");

        Assert.Contains("it leaves 148 in this tank now, not 150", page, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Null((await db.Tanks.SingleAsync(t => t.Code == "A001")).ClosedAt);
    }

    [Theory, BothDatabases]
    public async Task The_tank_of_another_school_or_programme_is_not_found(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        foreach (var tank in new[] { "A002", "B001", "Z999" })
        {
            foreach (var page in new[] { "", "/received", "/move", "/close", "/correct/1" })
            {
                Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync($"/ledger/{tank}{page}")).StatusCode);
            }
        }

        var season = await teacher.ReadAsync("/ledger");
        Assert.Contains("150 eggs came in", season, StringComparison.Ordinal);
        Assert.DoesNotContain("A002", season, StringComparison.Ordinal);
        Assert.DoesNotContain("A002", await teacher.ReadAsync("/ledger/A001/move"), StringComparison.Ordinal);
        var sent = await teacher.RefusedAsync("/ledger/A001/move", Fields(("To", "A002"), ("Count", "5")), "move");
        Assert.Contains("Choose the tank that they moved to.", sent, StringComparison.Ordinal);
    }

    private static async Task<long> LineIdAsync(PortalHost host, LedgerKind kind)
    {
        await using var db = host.OpenDb();
        return await db.Ledger.Where(e => e.Kind == kind && e.CorrectsId == null).Select(e => e.Id).SingleAsync();
    }
}
