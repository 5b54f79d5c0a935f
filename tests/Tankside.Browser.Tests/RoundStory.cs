using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Browser.Tests.RoundSteps;

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
        await Assertions.Expect(round.Locator(".detail > .evidence")).ToContainTextAsync(host.World.One.People[Role.Coordinator].Name);
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
        await mine.GetByText("Losses day by day, and how far the fish are").ClickAsync();
        await Assertions.Expect(mine.GetByRole(AriaRole.Img, new() { NameRegex = new("% of the way until half (have hatched|swim up)") })).ToBeVisibleAsync();

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

    private static async Task CloseAsync(IPage round, string outcome)
    {
        await round.Locator(".act .danger").ClickAsync();
        await round.SelectOptionAsync("#outcome", outcome);
        await round.SelectOptionAsync("#cause", "RoomOrSun");
        await round.Locator(".mud-dialog-actions button").Last.ClickAsync();
    }
}
