using System.Net.Http.Json;
using System.Text.Json;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Tankside.Browser.Tests;

/// <summary>What every story of the round begins with.</summary>
internal static class RoundSteps
{
    public static async Task<IReadOnlyList<string>> ViolationsAsync(IPage page) =>
        [.. (await page.RunAxe()).Violations.SelectMany(v => v.Nodes.Select(n => $"{v.Id}: {n.Html}"))];

    /// <summary>52 °F was usual in A001; A002 has stood at 54 °F for two days.</summary>
    public static async Task SteadyMorningAsync(BrowserHost host)
    {
        var client = host.Portal.ClientWithKey(host.World.One.CoordinatorKey);
        var readings = new[] { 2, 1 }.SelectMany(days => new[] { ("A001", 52.0), ("A002", 54.0) }.Select(t => new
        {
            id = Guid.NewGuid(),
            tank = t.Item1,
            at = new DateTimeOffset(host.Portal.Now.AddDays(-days), TimeSpan.Zero).ToString("o"),
            waterF = t.Item2,
            hatched = "all",
        }));
        var answer = await client.PostAsJsonAsync("/api/v1/readings", new { readings });
        Assert.Equal(4, (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("accepted").GetInt32());
        await host.Portal.SweepAsync();
    }

    public static async Task EnterAsync(BrowserHost host, string degrees, bool celsius = false)
    {
        var form = await host.PageAsync(width: 360, withScripts: false);
        await form.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");
        await form.FillAsync("#water", degrees);
        await form.ClickAsync(celsius ? "label[for=unit-c]" : "label[for=unit-f]");
        await form.ClickAsync("button.send");
    }

    /// <summary>Presses a key of the round once the keyboard is there: what closes or opens gives it back a moment later.</summary>
    public static async Task KeyAsync(IPage page, string key)
    {
        await page.WaitForFunctionAsync("() => document.activeElement?.closest('#round') && !document.querySelector('.mud-dialog')");
        await page.Keyboard.PressAsync(key);
    }

    /// <summary>By tabs to a part of the open dialog, as a keyboard does.</summary>
    public static async Task TabToAsync(IPage page, string selector)
    {
        await page.Locator(selector).First.WaitForAsync();
        await page.WaitForFunctionAsync("() => document.activeElement?.closest('.mud-dialog, .mud-focus-trap, .mud-dialog-container')");
        for (var tabs = 0; tabs < 40; tabs++)
        {
            if (await page.EvaluateAsync<bool>("selector => [...document.querySelectorAll(selector)].at(selector.endsWith('button') ? -1 : 0) === document.activeElement", selector))
            {
                return;
            }

            await page.Keyboard.PressAsync("Tab");
        }

        Assert.Fail($"Forty tabs did not lead to {selector}.");
    }

    /// <summary>Opens the round and waits until its own connection stands; what is shown before hears no key.</summary>
    public static async Task OpenRoundAsync(IPage page, string address)
    {
        await page.GotoAsync(address);
        await page.Locator("#round[data-live=true]").WaitForAsync();
    }
}
