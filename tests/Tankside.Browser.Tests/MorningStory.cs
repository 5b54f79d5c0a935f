using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Browser.Tests.RoundSteps;

namespace Tankside.Browser.Tests;

/// <summary>The whole morning without a mouse, at a desk and on a phone with a keyboard; and what is left when the connection goes.</summary>
public class MorningStory
{
    [BrowserTheory]
    [InlineData(1366, DatabaseKind.Sqlite)]
    [InlineData(360, DatabaseKind.Sqlite)]
    [InlineData(1366, DatabaseKind.PostgreSQL)]
    public async Task The_morning_is_worked_by_keyboard_alone(int width, DatabaseKind kind)
    {
        await using var host = await BrowserHost.StartAsync(kind);
        await SteadyMorningAsync(host);
        await SpareAsync(host);
        await EnterAsync(host, "61");
        var page = await host.PageAsAsync(Role.Coordinator, width: width);
        await OpenRoundAsync(page, "/round");
        await Assertions.Expect(page.Locator("li.call")).ToHaveCountAsync(2);
        Assert.Empty(await ViolationsAsync(page));

        await WalkToQueueAsync(page);
        await KeyAsync(page, "ArrowDown");
        await Assertions.Expect(page.Locator("li.call.is-open")).ToHaveAttributeAsync("data-tank", "A001");
        await KeyAsync(page, "t");
        await Assertions.Expect(page.Locator(".detail > .evidence")).ToContainTextAsync(host.World.One.People[Role.Coordinator].Name);
        Assert.Empty(await ViolationsAsync(page));

        await ReserveAsync(page);
        await PromiseAsync(page);
        await CallAsync(page);
        await CloseAsync(page);

        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("No tank needs you");
        Assert.True(await page.EvaluateAsync<bool>($"document.documentElement.scrollWidth <= {width}"));
        Assert.Empty(host.Troubles);
        await using var db = host.Portal.OpenDb();
        Assert.Equal(12.5, (await db.Readings.SingleAsync(r => r.Source == ReadingSource.PhoneCall)).Seen.WaterC);
        Assert.Equal(TroubleCause.RoomOrSun, Assert.Single(await db.FlagEvents.Where(e => e.Deed == FlagDeed.Closed).Select(e => e.Cause).Distinct().ToListAsync()));
    }

    [BrowserFact]
    public async Task Words_that_were_being_typed_and_the_open_call_survive_a_page_that_is_lost()
    {
        await using var host = await BrowserHost.StartAsync();
        await SteadyMorningAsync(host);
        var page = await host.PageAsAsync(Role.Coordinator);
        await OpenRoundAsync(page, "/round?tank=A002");
        await page.Locator("#call-A002").FocusAsync();
        await KeyAsync(page, "n");
        await page.Locator("#note").PressSequentiallyAsync("She will look at");
        await KeptAsync(host, "She will look at");

        await page.ReloadAsync();
        await page.Locator("#round[data-live=true]").WaitForAsync();
        await Assertions.Expect(page.Locator("li.call.is-open")).ToHaveAttributeAsync("data-tank", "A002");
        await page.Locator("#call-A002").FocusAsync();
        await KeyAsync(page, "n");

        await Assertions.Expect(page.Locator("#note")).ToHaveValueAsync("She will look at");
        await page.GetByText("Keep the note").ClickAsync();
        await Assertions.Expect(page.Locator(".history")).ToContainTextAsync("She will look at");
        await using var db = host.Portal.OpenDb();
        Assert.Empty(await db.Drafts.ToListAsync());
    }

    /// <summary>By tabs from the head of the page into the queue, as a keyboard does.</summary>
    private static async Task WalkToQueueAsync(IPage page)
    {
        for (var tabs = 0; tabs < 40; tabs++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<bool>("!!document.activeElement.closest('#round')"))
            {
                return;
            }
        }

        Assert.Fail("Forty tabs did not lead into the queue.");
    }

    private static async Task ReserveAsync(IPage page)
    {
        await KeyAsync(page, "s");
        await TabToAsync(page, "#reserve-SP-1");
        Assert.Empty(await ViolationsAsync(page));
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".history")).ToContainTextAsync("reserved a spare");
    }

    /// <summary>The other call: it is promised something and leaves the round until then.</summary>
    private static async Task PromiseAsync(IPage page)
    {
        await KeyAsync(page, "ArrowDown");
        await Assertions.Expect(page.Locator("li.call.is-open")).ToHaveAttributeAsync("data-tank", "A002");
        await KeyAsync(page, "p");
        await TabToAsync(page, "#reason");
        await page.Keyboard.TypeAsync("Ms R lowers the set point");
        await TabToAsync(page, ".quick button:first-child");
        await page.Keyboard.PressAsync("Enter");
        Assert.Empty(await ViolationsAsync(page));
        await PressLastAsync(page);
        await Assertions.Expect(page.GetByLabel("Calls that wait").Locator("li")).ToHaveCountAsync(1);
    }

    /// <summary>The first again: what they read over the phone is a reading.</summary>
    private static async Task CallAsync(IPage page)
    {
        await KeyAsync(page, "ArrowUp");
        await Assertions.Expect(page.Locator("li.call.is-open")).ToHaveAttributeAsync("data-tank", "A001");
        await KeyAsync(page, "r");
        await TabToAsync(page, "#told-water");
        await page.Keyboard.TypeAsync("12,5 C");
        Assert.Empty(await ViolationsAsync(page));
        await TabToAsync(page, "[name=told-moving]:checked");
        for (var steps = 0; steps < 3 && !await page.IsCheckedAsync("#told-moving-true"); steps++)
        {
            await page.Keyboard.PressAsync("ArrowDown");
        }

        await TabToAsync(page, "#said");
        await page.Keyboard.TypeAsync("It was the sun; foil is up");
        await PressLastAsync(page);
        await Assertions.Expect(page.Locator(".history")).ToContainTextAsync("It was the sun");
        await Assertions.Expect(page.Locator("li.call.is-open")).ToContainTextAsync("54.5 °F");
    }

    private static async Task CloseAsync(IPage page)
    {
        await KeyAsync(page, "c");
        await TabToAsync(page, "#outcome");
        await page.Keyboard.TypeAsync("Put");
        await TabToAsync(page, "#cause");
        await page.Keyboard.TypeAsync("Room");
        Assert.Empty(await ViolationsAsync(page));
        await PressLastAsync(page);
    }

    /// <summary>The dialog's own last button, by the keyboard.</summary>
    private static async Task PressLastAsync(IPage page)
    {
        await TabToAsync(page, ".mud-dialog-actions button");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".mud-dialog")).ToHaveCountAsync(0);
    }

    /// <summary>The clock stands still until the test moves it; the words are kept when typing has paused.</summary>
    private static async Task KeptAsync(BrowserHost host, string words)
    {
        for (var tries = 0; tries < 200; tries++)
        {
            host.Portal.Time.Advance(TimeSpan.FromMilliseconds(500));
            await using var db = host.Portal.OpenDb();
            if (await db.Drafts.AnyAsync(d => d.Text == words))
            {
                return;
            }

            await Task.Yield();
        }

        Assert.Fail("The words were not kept.");
    }

    private static Task SpareAsync(BrowserHost host) => host.Portal.SeedAsync(db =>
    {
        var depot = new KitDepot
        {
            Id = Guid.NewGuid(),
            ProgrammeId = host.World.One.Programme.Id,
            Name = "stock room",
            SchoolId = host.World.One.Schools[1].Id,
            Phone = "555-0139",
        };
        db.AddRange(depot, new KitItem
        {
            Id = Guid.NewGuid(),
            ProgrammeId = host.World.One.Programme.Id,
            Kind = KitKind.Chiller,
            Serial = "SP-1",
            Make = "quarter horse",
            DepotId = depot.Id,
        });
    });
}
