using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Tests.Releases;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Eggs.Runs;

public class TickTests
{
    [Theory, BothDatabases]
    public async Task Two_phones_tick_the_same_stop_and_it_is_one_hand_over_at_the_earlier_time(DatabaseKind kind)
    {
        var (host, _, run, client) = await RunSteps.StartAsync(kind);
        await using var __ = host;
        await host.PlanAsync(client, run.Run.Id);
        var (driver, stop) = (run.Drivers[0], $"{run.Stops[0].Id}");
        var (phone, otherPhone, id) = (host.Anonymous(), host.Anonymous(), Guid.NewGuid());

        var answers = await Task.WhenAll(
            phone.TickAsync(driver.Code, id, stop, TickDeed.HandedOver),
            phone.TickAsync(driver.Code, id, stop, TickDeed.HandedOver),
            otherPhone.TickAsync(run.Drivers[1].Code, Guid.NewGuid(), stop, TickDeed.HandedOver, keptMinutes: 7));

        Assert.All(answers, a => Assert.Equal(HttpStatusCode.SeeOther, a.StatusCode));
        await using var db = host.OpenDb();
        var ticks = await db.RunTicks.AsNoTracking().ToListAsync();
        Assert.Equal(2, ticks.Count);
        var account = Custody.Of(run.Stops[0].Id, 100, ticks);
        Assert.Equal((PackPlace.AtTheTank, host.Now.AddMinutes(-7)), (account.Place, account.Deciding!.At));
        var page = await client.ReadAsync($"/runs/{run.Run.Id}");
        Assert.Contains("Of 200 eggs: 100 at the depot, 100 handed over.", page, StringComparison.Ordinal);
        Assert.Contains("Handed over 08:08, ticked twice: counted once", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_sheet_loads_the_whole_round_at_one_press_hands_over_and_takes_a_slip_back(DatabaseKind kind)
    {
        var (host, _, run, client) = await RunSteps.StartAsync(kind);
        await using var __ = host;
        await host.PlanAsync(client, run.Run.Id);
        var stops = await host.StopsAsync(run.Run.Id);
        var driver = run.Drivers.Single(d => d.Id == stops[0].DriverId);
        var (phone, sheet, stop) = (host.Anonymous(), $"/run/{driver.Code}", $"{stops[0].Id}");
        Assert.Contains("are in the car", await phone.ReadAsync(sheet), StringComparison.Ordinal);

        await phone.TickAsync(driver.Code, Guid.NewGuid(), "all", TickDeed.Loaded);
        Assert.DoesNotContain("are in the car", await phone.ReadAsync(sheet), StringComparison.Ordinal);
        await phone.TickAsync(driver.Code, Guid.NewGuid(), stop, TickDeed.HandedOver);
        Assert.Contains("Handed over 08:15", await phone.ReadAsync(sheet), StringComparison.Ordinal);
        host.Time.Advance(TimeSpan.FromMinutes(1));
        await phone.TickAsync(driver.Code, Guid.NewGuid(), stop, TickDeed.TakenBack);
        Assert.DoesNotContain("Handed over 08:15", await phone.ReadAsync(sheet), StringComparison.Ordinal);

        using var unreadable = await phone.PostAsync($"{sheet}/ticks", new FormUrlEncodedContent([new("id", "x"), new("deed", "HandedOver")]));
        Assert.Equal(HttpStatusCode.BadRequest, unreadable.StatusCode);
        Assert.Contains("nothing was kept", await unreadable.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        host.Time.Advance(TimeSpan.FromDays(3));
        Assert.Equal(HttpStatusCode.NotFound, (await phone.GetAsync(sheet)).StatusCode);
    }
}
