using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json;
using Deque.AxeCore.Playwright;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>The coordinator's morning, with two people at it and a class that writes while the page is open.</summary>
public class RoundStory
{
    private static readonly TimeSpan Live = TimeSpan.FromSeconds(2);

    [BrowserTheory, BothDatabases]
    public async Task A_class_reading_comes_to_the_top_of_the_open_round_and_the_call_is_worked(DatabaseKind kind)
    {
        await using var host = await BrowserHost.StartAsync(kind);
        await SteadyMorningAsync(host);
        var round = await host.PageAsAsync(Role.Coordinator);
        await OpenRoundAsync(round, "/round");
        await Assertions.Expect(round.Locator("li.call")).ToHaveCountAsync(1);
        await Assertions.Expect(round.Locator("li.call").First).ToHaveAttributeAsync("data-tank", "A002");

        await EnterAsync(host, "61");
        var after = Stopwatch.StartNew();
        await Assertions.Expect(round.Locator("li.call").First).ToHaveAttributeAsync("data-tank", "A001");
        Assert.True(after.Elapsed < Live, $"the flag took {after.Elapsed.TotalSeconds:0.00} s to reach the open page");
        await Assertions.Expect(round.Locator("li.call").First).ToContainTextAsync("61 °F");

        await round.Locator("#call-A001").ClickAsync();
        await round.Keyboard.PressAsync("t");
        await Assertions.Expect(round.Locator(".evidence")).ToContainTextAsync(host.World.One.People[Role.Coordinator].Name);
        await round.Keyboard.PressAsync("n");
        await round.FillAsync("#note", "Mr K floats ice until noon");
        await round.GetByText("Keep the note").ClickAsync();
        await Assertions.Expect(round.Locator(".history")).ToContainTextAsync("Mr K floats ice until noon");

        await CloseAsync(round, "SpareSent");
        await Assertions.Expect(round.Locator("li.call")).ToHaveCountAsync(1);
        await using var db = host.Portal.OpenDb();
        var deeds = await db.FlagEvents.Where(e => db.Flags.Any(f => f.Id == e.FlagId && f.TankId == host.World.One.Tanks[0].Id))
            .Select(e => e.Deed).ToListAsync();
        Assert.Contains(FlagDeed.Opened, deeds);
        Assert.Contains(FlagDeed.Taken, deeds);
        Assert.Contains(FlagDeed.Noted, deeds);
        Assert.Contains(FlagDeed.Closed, deeds);
        Assert.Empty(host.Troubles);
    }

    [BrowserTheory, BothDatabases]
    public async Task Two_people_on_one_flag_never_overwrite_each_other(DatabaseKind kind)
    {
        await using var host = await BrowserHost.StartAsync(kind);
        await SteadyMorningAsync(host);
        var mine = await host.PageAsAsync(Role.Coordinator);
        var theirs = await host.PageAsAsync(Role.ProgrammeLead);
        await OpenRoundAsync(mine, "/round?tank=A002");
        await OpenRoundAsync(theirs, "/round?tank=A002");
        await Assertions.Expect(mine.Locator(".act")).ToBeVisibleAsync();

        // Both begin to write; the other is quicker.
        await mine.Locator("#call-A002").FocusAsync();
        await mine.Keyboard.PressAsync("n");
        await mine.FillAsync("#note", "I rang the office");
        await theirs.Locator("#call-A002").FocusAsync();
        await theirs.Keyboard.PressAsync("n");
        await theirs.FillAsync("#note", "Ice is on its way");
        await theirs.GetByText("Keep the note").ClickAsync();
        await Assertions.Expect(theirs.Locator(".history")).ToContainTextAsync("Ice is on its way");
        await mine.GetByText("Keep the note").ClickAsync();

        var notice = mine.Locator(".notice.ask");
        await Assertions.Expect(notice).ToContainTextAsync("Ice is on its way");
        await Assertions.Expect(notice).ToContainTextAsync("I rang the office");
        await notice.GetByText("Save mine as well").ClickAsync();
        await Assertions.Expect(mine.Locator(".history")).ToContainTextAsync("I rang the office");
        await Assertions.Expect(mine.Locator(".history")).ToContainTextAsync("Ice is on its way");
    }

    [BrowserFact]
    public async Task A_closed_call_can_be_opened_again_at_once()
    {
        await using var host = await BrowserHost.StartAsync();
        await SteadyMorningAsync(host);
        var round = await host.PageAsAsync(Role.Coordinator);
        await OpenRoundAsync(round, "/round");
        await round.Locator("#call-A002").ClickAsync();
        await CloseAsync(round, "FalseAlarm");
        await Assertions.Expect(round.Locator("li.call")).ToHaveCountAsync(0);
        await Assertions.Expect(round.Locator("h1")).ToContainTextAsync("No tank needs you");

        await round.GetByText("Undo").ClickAsync();

        await Assertions.Expect(round.Locator("li.call")).ToHaveCountAsync(1);
    }

    [BrowserFact]
    public async Task A_doubtful_reading_waits_in_the_round_and_the_coordinator_answers_it()
    {
        await using var host = await BrowserHost.StartAsync();
        await SteadyMorningAsync(host);
        await EnterAsync(host, "16", celsius: false);
        var round = await host.PageAsAsync(Role.Coordinator);
        await OpenRoundAsync(round, "/round");
        var waits = round.GetByLabel("Readings that wait for an answer");
        await Assertions.Expect(waits).ToContainTextAsync("16 °F");

        await waits.GetByText("16 °C was meant").ClickAsync();

        await Assertions.Expect(round.Locator("li.call").First).ToHaveAttributeAsync("data-tank", "A001");
        await Assertions.Expect(waits).ToHaveCountAsync(0);
    }

    [BrowserTheory]
    [InlineData(1366)]
    [InlineData(360)]
    public async Task The_round_has_no_accessibility_violation_and_fits(int width)
    {
        await using var host = await BrowserHost.StartAsync();
        await SteadyMorningAsync(host);
        await EnterAsync(host, "61");
        var round = await host.PageAsAsync(Role.Coordinator, width: width);
        await OpenRoundAsync(round, "/round");
        await Assertions.Expect(round.Locator("li.call")).ToHaveCountAsync(2);
        Assert.Empty(await ViolationsAsync(round));

        await round.Locator("#call-A001").ClickAsync();
        await Assertions.Expect(round.Locator(".act")).ToBeVisibleAsync();
        Assert.Empty(await ViolationsAsync(round));
        Assert.True(await round.EvaluateAsync<bool>($"document.documentElement.scrollWidth <= {width}"));
        Assert.Empty(host.Troubles);
    }

    private static async Task<IReadOnlyList<string>> ViolationsAsync(IPage page) =>
        [.. (await page.RunAxe()).Violations.SelectMany(v => v.Nodes.Select(n => $"{v.Id}: {n.Html}"))];

    /// <summary>52 °F was usual in A001; A002 has stood at 54 °F for two days.</summary>
    private static async Task SteadyMorningAsync(BrowserHost host)
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

    private static async Task EnterAsync(BrowserHost host, string degrees, bool celsius = false)
    {
        var form = await host.PageAsync(width: 360, withScripts: false);
        await form.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");
        await form.FillAsync("#water", degrees);
        await form.ClickAsync(celsius ? "label[for=unit-c]" : "label[for=unit-f]");
        await form.ClickAsync("button.send");
    }

    /// <summary>Opens the round and waits until its own connection stands; what is shown before hears no key.</summary>
    private static async Task OpenRoundAsync(IPage page, string address)
    {
        await page.GotoAsync(address);
        await page.Locator("#round[data-live=true]").WaitForAsync();
    }

    private static async Task CloseAsync(IPage round, string outcome)
    {
        await round.Locator(".act .danger").ClickAsync();
        await round.SelectOptionAsync("#outcome", outcome);
        await round.Locator(".mud-dialog-actions button").Last.ClickAsync();
    }
}
