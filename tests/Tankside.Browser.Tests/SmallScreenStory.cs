using Deque.AxeCore.Playwright;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>
/// The whole story of a class at 320 by 256 CSS pixels, which is what is left of a laptop's window at a zoom of 400%: by keyboard alone, without
/// JavaScript, and once more with axe looking on.
/// </summary>
public class SmallScreenStory
{
    private const int Width = 320;

    [BrowserTheory]
    [InlineData("en")]
    [InlineData("es")]
    public async Task Without_script_and_by_keyboard_alone_a_class_reads_is_asked_answers_and_finds_help(string language)
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync(Width, withScripts: false);
        var label = $"/t/{host.World.One.RoomCodes[0].Code}?lang={language}";
        await page.GotoAsync(label);
        await TabToAsync(page, "water");
        await page.Keyboard.TypeAsync("52,5");
        await TabToAsync(page, "unit-f");
        await page.Keyboard.PressAsync("ArrowRight"); // °C, by mistake
        foreach (var tick in new[] { "moving-yes", "bubbles-yes", "levelOk-yes", "clear-yes" })
        {
            await TabToAsync(page, tick);
            await page.Keyboard.PressAsync("Space");
        }

        await AssertFitsAsync(page);
        await page.Keyboard.PressAsync("Enter");
        await page.ArrivesAtAsync("/t/.*ask=");
        await AssertFitsAsync(page);

        await TabToAsync(page, "understood");
        await page.Keyboard.PressAsync("Space");
        await page.Keyboard.PressAsync("Enter");
        await page.ArrivesAtAsync("/t/.*sent=");
        await AssertFitsAsync(page);

        await page.GotoAsync(label.Replace("?", "/help?", StringComparison.Ordinal));
        await TabToAsync(page, "still", "value");
        await page.Keyboard.PressAsync("Enter");
        await page.ArrivesAtAsync("/help.*sign=still");
        Assert.Equal("still", await page.Locator(".aid:visible").GetAttributeAsync("data-sign"));
        await AssertFitsAsync(page);

        await using var db = host.Portal.OpenDb();
        var stored = await db.Readings.AsNoTracking().OrderBy(r => r.Id).ToListAsync();
        Assert.Equal([(ReadingState.Asked, "52,5"), (ReadingState.Accepted, "52.5"), (ReadingState.Accepted, null)], stored.Select(r => (r.State, r.TypedWater)));
        Assert.Equal((11.39, true, false), (stored[1].Seen.WaterC, stored[1].Seen.Moving, stored[2].Seen.Moving));
        Assert.Empty(host.Troubles);
    }

    [BrowserFact]
    public async Task No_page_of_the_story_has_an_accessibility_violation_or_runs_off_the_side()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync(Width);
        var label = $"/t/{host.World.One.RoomCodes[0].Code}";
        foreach (var language in new[] { "en", "es" })
        {
            foreach (var address in new[] { label, $"{label}/tank", $"{label}/help", $"{label}/help?sign=floor", "/t/offline", "/t/wrong" })
            {
                await page.GotoAsync($"{address}{(address.Contains('?', StringComparison.Ordinal) ? "&" : "?")}lang={language}");
                await AssertCleanAsync(page);
            }

            await page.GotoAsync($"{label}?lang={language}");
            await page.ClickAsync("summary");
            await page.FillAsync("#ph", "acid");
            await page.ClickAsync("button.send");
            await AssertCleanAsync(page);
            await page.FillAsync("#ph", "7,2");
            await page.FillAsync("#water", "27");
            await page.ClickAsync("button.send");
            await page.ArrivesAtAsync("/t/.*ask=");
            await AssertCleanAsync(page);
            await page.FillAsync(".ask .big-number", "52");
            await page.ClickAsync("label[for=unit-f]");
            await page.ClickAsync("button.send");
            await page.ArrivesAtAsync("/t/.*sent=");
            await AssertCleanAsync(page);
        }

        // The browser itself names the refused form and the wrong label on its console; nothing else may stand there.
        Assert.All(host.Troubles, t => Assert.Matches("status of (422|404)", t));
    }

    [BrowserFact]
    public async Task A_teacher_types_a_week_from_the_wall_sheet_with_nothing_but_the_keyboard()
    {
        await using var host = await BrowserHost.StartAsync();
        foreach (var width in new[] { Width, 1366 })
        {
            var page = await host.PageAsAsync(Role.Teacher, width: width);
            await page.GotoAsync($"/tanks/{host.World.One.Tanks[0].Code}/reading/week?of={host.Portal.Now.AddDays(-7):yyyy-MM-dd}");
            Assert.Empty((await page.RunAxe()).Violations);
            await AssertFitsAsync(page);
            for (var day = 0; day < 5; day++)
            {
                await TabToAsync(page, $"water.{day}", "name");
                await page.Keyboard.TypeAsync($"5{day}");
                await page.Keyboard.PressAsync("Tab");
                await page.Keyboard.PressAsync("Tab");
                await page.Keyboard.PressAsync("Space");
            }

            await page.Keyboard.PressAsync("Enter");
            await page.WaitForSelectorAsync(".notice.good");
            Assert.Contains("5 days are saved", await page.InnerTextAsync("main"), StringComparison.Ordinal);
            Assert.Empty((await page.RunAxe()).Violations);
        }

        await using var db = host.Portal.OpenDb();
        Assert.Equal(10, await db.Readings.CountAsync(r => r.Seen.Moving == true && r.Seen.Clear == true));
    }

    private static async Task AssertCleanAsync(IPage page)
    {
        Assert.Empty((await page.RunAxe()).Violations);
        await AssertFitsAsync(page);
    }

    private static async Task AssertFitsAsync(IPage page) =>
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), page.Url);

    /// <summary>Presses Tab until that element has the focus; eighty presses are more than any page here has stops.</summary>
    private static async Task TabToAsync(IPage page, string value, string attribute = "id")
    {
        for (var presses = 0; presses < 80; presses++)
        {
            if (await page.EvaluateAsync<string?>("a => document.activeElement && document.activeElement.getAttribute(a)", attribute) == value)
            {
                return;
            }

            await page.Keyboard.PressAsync("Tab");
        }

        Assert.Fail($"no Tab leads to {attribute} {value} on {page.Url}");
    }
}
