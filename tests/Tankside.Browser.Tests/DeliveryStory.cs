using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Portal.Eggs.Runs;
using Tankside.Portal.Tests;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>From eggs that are promised to eggs in the tank: a run is made, planned, driven without a network, and received.</summary>
public class DeliveryStory
{
    [BrowserFact]
    public async Task Eggs_go_from_the_order_to_the_tank()
    {
        await using var host = await BrowserHost.StartAsync(settings: new PortalHostSettings
        {
            Services = services => services.Replace(ServiceDescriptor.Singleton(new PlanPatience(TimeSpan.Zero, TimeSpan.Zero))),
        });
        await PromiseEggsAsync(host);
        var page = await host.PageAsAsync(Role.Coordinator);
        await page.GotoAsync("/runs");
        await page.FillAsync("#day", "2027-02-03");
        await page.ClickAsync("text=Make the run");

        await page.ClickAsync("text=Choose stops");
        Assert.True(await page.IsCheckedAsync("input[name='Input.Tanks']"));
        await page.UncheckAsync("input[name='Input.NoGoToHolding']"); // nobody went through the list of this made-up tank
        await page.ClickAsync("text=These are the stops");
        await page.ClickAsync("text=Places and drivers");
        await page.FillAsync("#place-name", "Reed Hatchery");
        await page.FillAsync("#latitude", "43.70");
        await page.FillAsync("#longitude", "-113.70");
        await page.ClickAsync("text=Add the place");
        await page.FillAsync("#name", "Dora Driver");
        await page.FillAsync("#phone", "555-0177");
        await page.ClickAsync("text=Add the driver");
        await page.ClickAsync("text=Back to the run");
        await page.ClickAsync("text=Plan the rounds");
        await page.WaitForSelectorAsync("text=1 stop in 1 round."); // the page looks again by itself until then

        await DriveAsync(host);

        await page.ReloadAsync();
        await page.ClickAsync("text=Enter the arrival");
        await page.FillAsync("#box", "44");
        await page.FillAsync("#tank-temperature", "51");
        await page.FillAsync("#tempered", "35");
        await page.FillAsync("#received-by", "Front office");
        await page.FillAsync("#count", "148");
        await page.FillAsync("#dead", "3");
        await page.ClickAsync("main button[type=submit]");
        await page.WaitForSelectorAsync("h1:has-text('148 eggs arrived at A001.')");
        await page.ClickAsync("text=Ledger of A001");
        await page.WaitForSelectorAsync("text=148 eggs came in");
        Assert.Empty(host.Troubles);
    }

    /// <summary>The driver's phone loses its network at the school: the tick waits, the sheet still opens, and it is sent on the way home.</summary>
    private static async Task DriveAsync(BrowserHost host)
    {
        await using var db = host.Portal.OpenDb();
        var code = await db.RunDrivers.Select(d => d.Code).SingleAsync();
        await using var network = new CutNetwork(host.Portal.ClientOptions.BaseAddress);
        await using var telephone = new SharedLaptop(network.Address);
        var phone = await telephone.StartAsync();
        await phone.GotoAsync($"/run/{code}");
        await phone.EvaluateAsync(
            "navigator.serviceWorker.controller ? null : new Promise(done => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }))");
        await phone.ReloadAsync();
        network.CutAt(Cut.Before);

        await phone.ClickAsync("button[value=HandedOver]");
        await phone.WaitForSelectorAsync("#waiting:has-text('1 tick waits on this phone')");
        await phone.ReloadAsync();
        await phone.WaitForSelectorAsync("[data-stop] [data-kept-here]");
        await network.MendAsync();
        await phone.EvaluateAsync("dispatchEvent(new Event('online'))");
        await phone.WaitForSelectorAsync("[data-stop]:has-text('Handed over 08:')");
    }

    /// <summary>One tank has eggs promised and none received; its school has a place.</summary>
    private static Task PromiseEggsAsync(BrowserHost host) => host.Portal.SeedAsync(db =>
    {
        var one = host.World.One;
        var tank = one.Tanks[0];
        db.RemoveRange(db.Receipts.Where(r => r.TankId == tank.Id));
        db.RemoveRange(db.Ledger.Where(e => e.TankId == tank.Id));
        var school = db.Schools.Single(s => s.Id == one.Schools[0].Id);
        (school.Latitude, school.Longitude) = (43.72, -113.70);
        db.Add(new Allotment { Id = Guid.NewGuid(), SeasonId = one.Season.Id, TankId = tank.Id, LotId = one.Lot.Id, Eggs = 150, DeliveryOn = new DateOnly(2027, 2, 3) });
    });
}
