using Microsoft.Playwright;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>A teacher on a telephone looks when the fish swim up, and takes the dates into their own calendar.</summary>
public class CalendarStory
{
    [BrowserFact]
    public async Task From_the_break_that_is_too_near_to_an_address_for_ones_own_calendar()
    {
        await using var host = await BrowserHost.StartAsync();
        await host.Portal.SeedAsync(db => db.Add(new Closure
        {
            Id = Guid.NewGuid(),
            ProgrammeId = host.World.One.Programme.Id,
            FirstDay = new DateOnly(2027, 2, 15),
            LastDay = new DateOnly(2027, 2, 19),
            Reason = "Winter break",
        }));
        var page = await host.PageAsAsync(Role.Teacher);
        await page.SetViewportSizeAsync(360, 740);
        await page.GetByRole(AriaRole.Link, new() { Name = "Hatch calendar" }).ClickAsync();

        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("1 tank may swim up in a break, or too near one.");
        Assert.Empty(await RoundSteps.ViolationsAsync(page));
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"));
        await page.Locator("#by").SelectOptionAsync("lot");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show" }).ClickAsync();
        await Assertions.Expect(page.Locator("h2").First).ToHaveTextAsync("Lot L1");

        await page.GetByText("Dates in your own calendar").ClickAsync();
        await page.Locator("#of").SelectOptionAsync(new SelectOptionValue { Label = "tank A001" });
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the address" }).ClickAsync();

        var address = await page.Locator("#link-to-hand-on").InputValueAsync();
        Assert.EndsWith(".ics", address, StringComparison.Ordinal);
        Assert.Empty(await RoundSteps.ViolationsAsync(page));
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"));
        var calendar = await page.APIRequest.GetAsync(new Uri(address).AbsolutePath);
        Assert.Contains("A001: swim-up expected", await calendar.TextAsync(), StringComparison.Ordinal);
        Assert.Empty(host.Troubles);
    }
}
