using Deque.AxeCore.Playwright;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>A class at its tank: no account, and here no JavaScript either.</summary>
public class TodaysReadingTests
{
    [BrowserFact]
    public async Task A_class_enters_its_reading_without_script_and_is_told_what_the_fish_are_doing()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync(width: 360, withScripts: false);
        await page.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");

        await page.FillAsync("#water", "52");
        await page.ClickAsync("label[for=unit-f]");
        foreach (var tick in new[] { "moving", "bubbles", "levelOk", "clear" })
        {
            await page.ClickAsync($"label[for={tick}-yes]");
        }

        await page.ClickAsync("button.send");

        Assert.Contains("Your reading is saved: 52 °F", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        var reading = await OnlyReadingAsync(host);
        Assert.Equal(11.11, reading.Seen.WaterC);
        Assert.Equal("52", reading.TypedWater);
        Assert.Equal((true, true, true, true), (reading.Seen.Moving, reading.Seen.Bubbles, reading.Seen.LevelOk, reading.Seen.Clear));
        Assert.Null(reading.Seen.DeadAlevins);
        Assert.Empty(host.Troubles);
    }

    [BrowserFact]
    public async Task Fifty_two_in_celsius_is_asked_back_kept_and_answered_by_the_class()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync(width: 360, withScripts: false);
        await page.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");
        await page.FillAsync("#water", "52,0");
        await page.ClickAsync("label[for=unit-c]");
        await page.ClickAsync("button.send");

        Assert.Contains("You typed 52,0 °C", await page.InnerTextAsync("h2"), StringComparison.Ordinal);
        var asked = await OnlyReadingAsync(host);
        Assert.Equal(ReadingState.Asked, asked.State);

        await page.ClickAsync("label[for=understood]");
        await page.ClickAsync("button.send");

        Assert.Contains("saved: 52 °F", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        await using var db = host.Portal.OpenDb();
        var answer = await db.Readings.SingleAsync(r => r.Corrects == asked.SenderId);
        Assert.Equal((11.11, "class", ReadingState.Accepted), (answer.Seen.WaterC, answer.ConfirmedBy, answer.State));
        Assert.Equal("52,0", (await db.Readings.SingleAsync(r => r.SenderId == asked.SenderId)).TypedWater);
    }

    [BrowserFact]
    public async Task What_cannot_be_read_is_marked_and_nothing_typed_is_lost()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync(withScripts: false);
        await page.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");
        await page.FillAsync("#water", "512");
        await page.ClickAsync("label[for=moving-no]");
        await page.ClickAsync("summary");
        await page.FillAsync("#ph", "7,2");
        await page.FillAsync("#note", "the light was on");
        await page.ClickAsync("button.send");

        Assert.Contains("512 is not a temperature", await page.InnerTextAsync("#water-error"), StringComparison.Ordinal);
        Assert.Equal("512", await page.InputValueAsync("#water"));
        Assert.True(await page.IsCheckedAsync("#moving-no"));
        Assert.Equal("7,2", await page.InputValueAsync("#ph"));
        Assert.Equal("the light was on", await page.InputValueAsync("#note"));
        await using var db = host.Portal.OpenDb();
        Assert.False(await db.Readings.AnyAsync());
    }

    [BrowserFact]
    public async Task A_button_pressed_twice_sends_one_reading()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync(withScripts: false);
        await page.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");
        await page.FillAsync("#water", "51");
        await page.Locator("button.send").DblClickAsync();
        await page.ArrivesAtAsync(@"/t/.*\?sent=");

        Assert.Contains("Your reading is saved", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        await OnlyReadingAsync(host);
    }

    [BrowserFact]
    public async Task The_form_works_by_keyboard_alone()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync();
        await page.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");
        await page.FocusAsync("#water");
        await page.Keyboard.TypeAsync("11.5");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Space");
        await page.Keyboard.PressAsync("Enter");

        await page.ArrivesAtAsync(@"/t/.*\?sent=");
        Assert.Contains("saved: 11.5 °C", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        Assert.True((await OnlyReadingAsync(host)).Seen.Moving);
    }

    [BrowserFact]
    public async Task The_class_pages_have_no_accessibility_violation_no_script_but_our_files_and_no_cookie()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync(width: 360);
        var code = host.World.One.RoomCodes[0].Code;
        foreach (var address in new[] { $"/t/{code}", "/t/wrong" })
        {
            await page.GotoAsync(address);
            Assert.Empty((await page.RunAxe()).Violations);
            Assert.Equal(0, await page.Locator("script:not([src^='/t/'])").CountAsync());
        }

        await page.GotoAsync($"/t/{code}");
        await page.FillAsync("#water", "25");
        await page.ClickAsync("label[for=unit-c]");
        await page.ClickAsync("button.send");
        Assert.Empty((await page.RunAxe()).Violations);
        Assert.Empty(await page.Context.CookiesAsync());
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= 360"));
    }

    [BrowserFact]
    public async Task A_class_sees_its_tank_in_pictures_without_script()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync(width: 360);
        await page.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");
        await page.FillAsync("#water", "52");
        await page.ClickAsync("label[for=unit-f]");
        await page.FillAsync("#deadAlevins", "1");
        await page.ClickAsync("button.send");
        await host.Portal.JudgeAsync(); // The day is folded within a second by itself; the test does not wait for it.
        await page.GetByText("See our tank in pictures").ClickAsync();

        Assert.Contains("Swimming up: between", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        Assert.Equal(3, await page.Locator("figure.chart").CountAsync());
        Assert.Empty((await page.RunAxe()).Violations);
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= 360"));
        Assert.Empty(host.Troubles);
    }

    [BrowserFact]
    public async Task A_label_that_was_replaced_opens_nothing_and_says_what_to_do()
    {
        await using var host = await BrowserHost.StartAsync();
        await host.Portal.SeedAsync(db => db.RoomCodes.Single(c => c.Code == host.World.One.RoomCodes[0].Code).RevokedAt = host.Portal.Now);
        var page = await host.PageAsync(withScripts: false);

        var answer = await page.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");

        Assert.Equal(404, answer!.Status);
        Assert.Contains("Ask your teacher for the new one", await page.InnerTextAsync("main"), StringComparison.Ordinal);
    }

    private static async Task<Reading> OnlyReadingAsync(BrowserHost host)
    {
        await using var db = host.Portal.OpenDb();
        return await db.Readings.AsNoTracking().SingleAsync();
    }
}
