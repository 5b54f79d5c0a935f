using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>A chiller stops cooling: it is reported, swapped, repaired, and lies ready again.</summary>
public class KitStory
{
    [BrowserFact]
    public async Task From_the_fault_of_a_chiller_to_the_swap_to_the_repair()
    {
        await using var host = await BrowserHost.StartAsync();
        await FurnishAsync(host);
        var page = await host.PageAsAsync(Role.KitHand, width: 360);

        await page.GetByRole(AriaRole.Link, new() { Name = "Kit", Exact = true }).First.ClickAsync();
        await page.GetByLabel("Serial, make, tank, school or depot").FillAsync("A001");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "CH-1", Exact = true }).ClickAsync();

        await page.GetByRole(AriaRole.Link, new() { Name = "It is faulty" }).ClickAsync();
        await page.GetByLabel("What does it do, or not do?").FillAsync("hums and does not cool");
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter it" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Chiller CH-1 is faulty.");

        await page.GetByRole(AriaRole.Link, new() { Name = "Swap it" }).ClickAsync();
        await page.GetByLabel("Which piece goes in?").SelectOptionAsync("SP-1");
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter the swap" }).ClickAsync();
        await Assertions.Expect(page.Locator("#notice")).ToContainTextAsync("SP-1 is in, CH-1 is out (faulty)");

        await page.GetByRole(AriaRole.Link, new() { Name = "It goes to repair" }).ClickAsync();
        await page.GetByLabel("To whom, and until when?").FillAsync("the technician, two weeks");
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter it" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Chiller CH-1 is in repair.");

        await page.GetByRole(AriaRole.Link, new() { Name = "It is repaired and works" }).ClickAsync();
        await page.GetByLabel("To which depot?").SelectOptionAsync(new SelectOptionValue { Label = "Mill shed" });
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter it" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Chiller CH-1 is ready as a spare.");
        await Assertions.Expect(page.Locator(".history li")).ToHaveCountAsync(6);
        await Assertions.Expect(page.Locator(".history")).ToContainTextAsync("hums and does not cool");
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= window.innerWidth"), "wider than the phone");
        Assert.Empty(host.Troubles);

        await using var db = host.Portal.OpenDb();
        Assert.Equal(host.World.One.Tanks[0].Id, (await db.KitItems.SingleAsync(k => k.Serial == "SP-1")).InTankId);
    }

    private static Task FurnishAsync(BrowserHost host) => host.Portal.SeedAsync(db =>
    {
        var programme = host.World.One.Programme.Id;
        var depot = new KitDepot { Id = Guid.NewGuid(), ProgrammeId = programme, Name = "Mill shed", Phone = "555-0139" };
        var lent = new KitItem { Id = Guid.NewGuid(), ProgrammeId = programme, Kind = KitKind.Chiller, Serial = "CH-1", Make = "quarter horse" };
        var spare = new KitItem { Id = Guid.NewGuid(), ProgrammeId = programme, Kind = KitKind.Chiller, Serial = "SP-1", Make = "quarter horse" };
        var at = host.Portal.Now.AddDays(-20);
        db.AddRange(depot, lent, spare);
        db.Add(KitRules.Write(lent, KitActKind.Registered, new KitSpot(KitPlace.Depot, depot.Id), Guid.NewGuid(), null, at, null));
        db.Add(KitRules.Write(lent, KitActKind.Out, new KitSpot(KitPlace.Tank, host.World.One.Tanks[0].Id), Guid.NewGuid(), null, at, null));
        db.Add(KitRules.Write(spare, KitActKind.Registered, new KitSpot(KitPlace.Depot, depot.Id), Guid.NewGuid(), null, at, null));
    });
}
