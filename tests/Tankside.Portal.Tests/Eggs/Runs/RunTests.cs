using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Eggs.Runs;
using Tankside.Portal.Tests.Releases;
using Tankside.Portal.Tests.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Eggs.Runs;

public class RunTests
{
    [Theory, BothDatabases]
    public async Task A_run_is_made_filled_planned_printed_and_told_to_everybody_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, RunSteps.Quick);
        await using var _ = host;
        var other = new MadeRun(world.One);
        await host.SeedAsync(db =>
        {
            other.AddTo(db);
            // Nothing has come to these tanks yet.
            db.RemoveRange(db.Receipts.Where(r => r.SeasonId == world.One.Season.Id));
            db.RemoveRange(db.RunStops.Local.ToList());
        });
        var client = await host.ClientAs(Role.Coordinator, world.One);

        var refused = await client.RefusedAsync("/runs", new() { ["Input.Name"] = "R9", ["Input.Day"] = "2027-02-03" }, "run");
        Assert.Contains("has a run of this name already", refused, StringComparison.Ordinal);
        var made = await client.PostFormAsync("/runs", new Dictionary<string, string> { ["Input.Name"] = "R10", ["Input.Day"] = "2027-02-03" }, "run");
        var run = Guid.Parse(made.Headers.Location!.ToString().Split('/')[^1]);
        await client.SendAsync($"/runs/{run}/drivers", new() { ["Place.Name"] = "Cold room", ["Place.Kind"] = "HoldingTank", ["Place.Latitude"] = "43.71", ["Place.Longitude"] = "-113.7" }, "place");
        var nobody = await client.RefusedAsync($"/runs/{run}/drivers", new() { ["Input.Eggs"] = "many" }, "driver");
        Assert.Contains("Choose a member, or type the name of the adult who drives.", nobody, StringComparison.Ordinal);
        Assert.Contains("as a whole number from 1 to 20000", nobody, StringComparison.Ordinal);
        await client.SendAsync($"/runs/{run}/drivers", new() { ["Input.Person"] = $"{world.One.People[Role.KitHand].Id}" }, "driver");
        Assert.Contains("no adult has gone through the list", await client.ReadAsync($"/runs/{run}/stops"), StringComparison.Ordinal);
        await client.SendAsync($"/runs/{run}/stops", new() { ["Input.Tanks"] = $"{world.One.Tanks[0].Id}", ["Input.NoGoToHolding"] = "true" }, "stops");
        var waiting = Assert.Single(await host.StopsAsync(run));
        Assert.True(waiting.ToHolding);
        await client.SendAsync($"/runs/{run}/stops/{waiting.Id}", new() { ["Input.ToHolding"] = "false" }, "stop");
        await client.DoAsync(run, "tell");
        Assert.Contains("Nobody was written to: the plan is not up to date.", await client.ReadAsync($"/runs/{run}"), StringComparison.Ordinal);

        await host.PlanAsync(client, run);

        var page = await client.ReadAsync($"/runs/{run}");
        Assert.Contains("R10, 3 February: 1 stop in 1 round.", page, StringComparison.Ordinal);
        Assert.Contains("Of 300 eggs: 300 at the depot.", page, StringComparison.Ordinal);
        var stop = Assert.Single(await host.StopsAsync(run));
        Assert.Equal(1, stop.Place);
        Assert.InRange(stop.Begins!.Value, new TimeOnly(8, 0), new TimeOnly(15, 15));

        await client.DoAsync(run, "tell");
        await client.DoAsync(run, "tell");
        await using var db = host.OpenDb();
        var letters = await db.OutgoingLetters.Where(l => l.Key.StartsWith($"run {run}")).OrderBy(l => l.Subject).ToListAsync();
        Assert.Equal(2, letters.Count);
        Assert.StartsWith($"Eggs for A001 come on Wednesday, February 3 about {stop.Begins:HH:mm}", letters[0].Subject, StringComparison.Ordinal);
        Assert.Equal("Your round R10 on Wednesday 3 February 2027", letters[1].Subject);
        Assert.Contains($"/runs/{run}/stops/{stop.Id}/arrival", letters[0].Text, StringComparison.Ordinal);

        var sheet = await PrintedPdf.GetAsync(client, $"/runs/{run}/sheets.pdf");
        Assert.All(["Birch", "Teacher", "Float", "Lift"], word => Assert.Contains(word, sheet.Text, StringComparison.Ordinal));
        var code = await db.RunDrivers.Where(d => d.RunId == run).Select(d => d.Code).SingleAsync();
        Assert.Equal($"{PortalHost.PublicUrl}run/{code}", Assert.Single(sheet.Codes));
        var calendar = Ical.Net.Calendar.Load(await host.Anonymous().GetStringAsync($"/run/{code}/run.ics"))!;
        var visit = calendar.Events.Single(e => e.Uid == $"stop-{stop.Id:n}");
        Assert.Equal(ProgrammeClock.Of("America/Denver").Utc(MadeRun.Day, stop.Begins.Value), visit.Start!.AsUtc);
    }

    [Theory, BothDatabases]
    public async Task What_cannot_be_driven_is_left_out_with_the_reason_and_a_tank_that_is_not_ready_goes_to_the_holding_tank(DatabaseKind kind)
    {
        var (host, world, run, client) = await RunSteps.StartAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => db.Add(new Closure
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            SchoolId = world.One.Schools[0].Id,
            FirstDay = MadeRun.Day,
            LastDay = MadeRun.Day,
            Reason = "Snow",
        }));
        await client.SendAsync($"/runs/{run.Run.Id}/stops/{run.Stops[1].Id}", new() { ["Input.ToHolding"] = "true" }, "stop");

        await host.PlanAsync(client, run.Run.Id);
        var page = await client.ReadAsync($"/runs/{run.Run.Id}");
        Assert.Contains("2 stops left out", page, StringComparison.Ordinal);
        Assert.Contains("The school is shut on this day", page, StringComparison.Ordinal);
        Assert.Contains("the run has no holding tank", page, StringComparison.Ordinal);

        await client.SendAsync($"/runs/{run.Run.Id}/drivers", new() { ["Place.Name"] = "Cold room", ["Place.Kind"] = "HoldingTank", ["Place.Latitude"] = "43.71", ["Place.Longitude"] = "-113.7" }, "place");
        await host.PlanAsync(client, run.Run.Id);
        Assert.Contains("Cold room for Mill Pond School, Room 2", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_driver_drops_out_and_the_other_takes_over_while_pins_and_what_was_handed_over_stay(DatabaseKind kind)
    {
        var (host, _, run, client) = await RunSteps.StartAsync(kind);
        await using var __ = host;
        var (first, second) = (run.Drivers[0], run.Drivers[1]);
        await client.SendAsync($"/runs/{run.Run.Id}/stops/{run.Stops[0].Id}", new() { ["Input.PinnedDriver"] = $"{first.Id}", ["Input.PinnedPlace"] = "1" }, "stop");
        await client.SendAsync($"/runs/{run.Run.Id}/stops/{run.Stops[1].Id}", new() { ["Input.PinnedDriver"] = $"{second.Id}" }, "stop");
        await host.PlanAsync(client, run.Run.Id);
        Assert.Equal(first.Id, (await StopAsync(host, run.Stops[0].Id)).DriverId);
        Assert.Equal(second.Id, (await StopAsync(host, run.Stops[1].Id)).DriverId);

        await host.Anonymous().TickAsync(first.Code, Guid.NewGuid(), $"{run.Stops[0].Id}", TickDeed.HandedOver);
        await client.SendAsync($"/runs/{run.Run.Id}/stops/{run.Stops[1].Id}", new() { ["Input.PinnedDriver"] = "" }, "stop");
        await client.DoAsync(run.Run.Id, $"{first.Id}");
        await host.PlanAsync(client, run.Run.Id);

        var done = await StopAsync(host, run.Stops[0].Id);
        Assert.Equal((first.Id, 1), (done.DriverId, done.Place));
        Assert.Equal(second.Id, (await StopAsync(host, run.Stops[1].Id)).DriverId);
        Assert.Contains("Of 200 eggs: 100 at the depot, 100 handed over.", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_plan_of_a_run_that_was_changed_while_it_was_made_is_not_kept(DatabaseKind kind)
    {
        using var keeping = new HeldDatabases(free: 1);
        var (host, _, run, client) = await RunSteps.StartAsync(kind, keeping.Under);
        await using var __ = host;
        await client.DoAsync(run.Run.Id, "plan");
        var planning = host.Services.GetRequiredService<PlanRun>().AtWork(run.Run.Id)!;
        await client.SendAsync($"/runs/{run.Run.Id}/stops/{run.Stops[0].Id}", new() { ["Input.Out"] = "true" }, "stop");
        keeping.LetGo();
        await planning.Work;

        Assert.All(await host.StopsAsync(run.Run.Id), s => Assert.Null(s.DriverId));
        Assert.Contains("R9, 3 February: 1 stop, not planned yet.", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Planning_shows_how_far_it_is_and_is_called_off(DatabaseKind kind)
    {
        var (host, _, run, client) = await RunSteps.StartAsync(kind, new PlanPatience(TimeSpan.Zero, TimeSpan.FromMinutes(5)));
        await using var __ = host;
        await client.DoAsync(run.Run.Id, "plan");
        var planning = host.Services.GetRequiredService<PlanRun>().AtWork(run.Run.Id)!;
        var page = await client.ReadAsync($"/runs/{run.Run.Id}");
        Assert.Contains("R9, 3 February: being planned.", page, StringComparison.Ordinal);
        Assert.Contains("<progress", page, StringComparison.Ordinal);

        await client.DoAsync(run.Run.Id, "off");
        await planning.Work;

        Assert.Contains("R9, 3 February: 2 stops, not planned yet.", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
        Assert.All(await host.StopsAsync(run.Run.Id), s => Assert.Null(s.DriverId));
    }

    private static async Task<RunStop> StopAsync(PortalHost host, Guid id)
    {
        await using var db = host.OpenDb();
        return await db.RunStops.AsNoTracking().SingleAsync(s => s.Id == id);
    }
}
