using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Tests.Releases;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Eggs.Runs;

public class RunTermsTests
{
    [Theory, BothDatabases]
    public async Task What_the_plan_goes_by_is_changed_and_the_plan_is_then_out_of_date(DatabaseKind kind)
    {
        var (host, _, run, client) = await RunSteps.StartAsync(kind);
        await using var _1 = host;
        await host.PlanAsync(client, run.Run.Id);
        var address = $"/runs/{run.Run.Id}/terms";
        var slow = await client.OpenFormAsync(address, new Dictionary<string, string> { ["Input.TalkMinutes"] = "60" }, "terms");

        var refused = await client.RefusedAsync(address, new() { ["Input.KmPerHour"] = "300", ["Input.Detour"] = "0.5", ["Input.Day"] = "2031-01-01" }, "terms");
        await client.SendAsync(address, new() { ["Input.KmPerHour"] = "45,5", ["Input.LongestOut"] = "120", ["Input.DropMinutes"] = "10" }, "terms");
        var late = await (await slow()).Content.ReadAsStringAsync();

        Assert.Contains("as a number from 10 to 120", refused, StringComparison.Ordinal);
        Assert.Contains("as a number from 1 to 3", refused, StringComparison.Ordinal);
        Assert.Contains("Nothing of yours was saved; what you typed is kept", late, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var kept = await db.DeliveryRuns.SingleAsync(r => r.Id == run.Run.Id);
        Assert.Equal((45.5, 120, 10, DeliveryRun.UsualTalk, PlanState.Stale), (kept.KmPerHour, kept.LongestOut, kept.DropMinutes, kept.TalkMinutes, kept.Plan));
    }

    [Theory, BothDatabases]
    public async Task A_place_and_a_driver_are_taken_out_while_nothing_hangs_on_them(DatabaseKind kind)
    {
        var (host, _, run, client) = await RunSteps.StartAsync(kind);
        await using var _1 = host;
        await host.PlanAsync(client, run.Run.Id);
        await using var db = host.OpenDb();
        var driver = await db.RunDrivers.AsNoTracking().OrderBy(d => d.Number).FirstAsync(d => d.RunId == run.Run.Id);
        var stop = await db.RunStops.AsNoTracking().FirstAsync(s => s.RunId == run.Run.Id && s.DriverId == driver.Id);
        var address = $"/runs/{run.Run.Id}/drivers";

        var held = await client.SendAsync(address, new() { ["TakenOut"] = $"place {driver.DepotId}" }, "take-out");
        Assert.Contains("loads at Reed Hatchery. Take the driver out of the run first", held, StringComparison.Ordinal);
        Assert.True(await db.RunPlaces.AnyAsync(p => p.Id == driver.DepotId));

        await client.SendAsync(address, new() { ["TakenOut"] = $"driver {driver.Id}" }, "take-out");
        Assert.False(await db.RunDrivers.AnyAsync(d => d.Id == driver.Id));
        var loose = await db.RunStops.AsNoTracking().SingleAsync(s => s.Id == stop.Id);
        Assert.Equal((null, null, null), (loose.DriverId, loose.Place, loose.Begins));
    }

    [Theory, BothDatabases]
    public async Task A_driver_who_ticked_a_stop_stays_in_the_account(DatabaseKind kind)
    {
        var (host, _, run, client) = await RunSteps.StartAsync(kind);
        await using var _1 = host;
        await host.PlanAsync(client, run.Run.Id);
        await using var db = host.OpenDb();
        var stop = await db.RunStops.AsNoTracking().FirstAsync(s => s.RunId == run.Run.Id && s.DriverId != null);
        var driver = await db.RunDrivers.AsNoTracking().SingleAsync(d => d.Id == stop.DriverId);
        await host.Anonymous().TickAsync(driver.Code, Guid.NewGuid(), $"{stop.Id}", TickDeed.Loaded);

        var held = await client.SendAsync($"/runs/{run.Run.Id}/drivers", new() { ["TakenOut"] = $"driver {driver.Id}" }, "take-out");
        var moved = await client.RefusedAsync($"/runs/{run.Run.Id}/terms", new() { ["Input.Day"] = "2027-02-04" }, "terms");

        Assert.Contains("Stops of this run are ticked already", moved, StringComparison.Ordinal);
        Assert.Contains("has ticked stops of this run", held, StringComparison.Ordinal);
        Assert.True(await db.RunDrivers.AnyAsync(d => d.Id == driver.Id));
    }

    [Theory, BothDatabases]
    public async Task Tanks_that_are_not_ready_are_named_and_their_eggs_sent_to_the_holding_tank_at_one_press(DatabaseKind kind)
    {
        var (host, _, run, client) = await RunSteps.StartAsync(kind);
        await using var _1 = host;
        await using var db = host.OpenDb();
        await db.RunPlaces.Where(p => p.RunId == run.Run.Id && p.Kind == RunPlaceKind.HoldingTank).ExecuteDeleteAsync();

        await client.DoAsync(run.Run.Id, "hold");
        Assert.Contains("This run has no holding tank yet", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
        db.Add(new RunPlace { Id = Guid.NewGuid(), RunId = run.Run.Id, Kind = RunPlaceKind.HoldingTank, Name = "Cold room", Latitude = 43.7, Longitude = -113.7 });
        await db.SaveChangesAsync();
        Assert.Contains("not ready for eggs", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
        await client.DoAsync(run.Run.Id, "hold");

        Assert.All(await host.StopsAsync(run.Run.Id), s => Assert.True(s.ToHolding));
        Assert.DoesNotContain("not ready for eggs", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_snow_day_marked_after_the_plan_is_told_and_a_new_plan_leaves_those_schools_out(DatabaseKind kind)
    {
        var (host, world, run, client) = await RunSteps.StartAsync(kind);
        await using var _1 = host;
        await host.PlanAsync(client, run.Run.Id);
        Assert.DoesNotContain("Shut on that day", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
        AreaSweep Mark(string area) => new()
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            Area = area,
            Reason = SweepReason.Snow,
            From = host.Now.AddHours(-2),
            MarkedBy = world.One.People[Role.Coordinator].Id,
            MarkedAt = host.Now.AddHours(-2),
        };
        await host.SeedAsync(db => db.Add(Mark("north")));

        Assert.Contains("Shut on that day: Birch Lane School.", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
        await host.PlanAsync(client, run.Run.Id);

        var north = (await host.StopsAsync(run.Run.Id)).Single(s => s.TankId == world.One.Tanks[0].Id);
        Assert.Equal((null, DropReason.SchoolShut), (north.DriverId, north.Dropped!.Value));
        Assert.NotNull((await host.StopsAsync(run.Run.Id)).Single(s => s.TankId == world.One.Tanks[1].Id).DriverId);
        Assert.DoesNotContain("Shut on that day", await client.ReadAsync($"/runs/{run.Run.Id}"), StringComparison.Ordinal);
    }
}
