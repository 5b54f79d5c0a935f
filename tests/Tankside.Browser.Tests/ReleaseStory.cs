using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>From a school's wish to the report: asked for, settled, tempered, counted by two, signed, reported.</summary>
public class ReleaseStory
{
    [BrowserFact]
    public async Task A_class_books_tempers_counts_signs_and_the_report_is_sent()
    {
        await using var host = await BrowserHost.StartAsync();
        var teacher = await host.PageAsAsync(Role.Teacher, width: 360);
        await AskAsync(teacher);
        var coordinator = await host.PageAsAsync(Role.Coordinator);
        await SettleAsync(coordinator);

        await teacher.ReloadAsync();
        await teacher.GetByRole(AriaRole.Link, new() { Name = "Wed 3 Feb 2027, afternoon" }).ClickAsync();
        await teacher.GetByRole(AriaRole.Link, new() { Name = "The day’s sheet" }).ClickAsync();
        var sheet = teacher.Url;
        await teacher.GetByRole(AriaRole.Link, new() { Name = "Plan for A001" }).ClickAsync();
        await teacher.GetByLabel("Stream, °F").FillAsync("49");
        await teacher.GetByRole(AriaRole.Button, new() { Name = "Plan it" }).ClickAsync();
        await teacher.WaitForSelectorAsync("h2:has-text('At the water')");

        await teacher.GotoAsync(sheet);
        await CountAsync(teacher, "First count", "Ada Adult", "140");
        await CountAsync(teacher, "Second count", "Bo Adult", "138");
        await teacher.GetByRole(AriaRole.Button, new() { Name = "138 stands" }).ClickAsync();
        await teacher.GetByLabel("Stream", new() { Exact = true }).FillAsync("49");
        await teacher.GetByLabel("Bucket, after mixing").FillAsync("50");
        await teacher.GetByLabel("Signed").FillAsync("Ada Adult");
        await teacher.GetByRole(AriaRole.Button, new() { Name = "Enter the release and sign" }).ClickAsync();
        await Assertions.Expect(teacher.Locator("h1")).ToHaveTextAsync("138 fish are let go, counted and signed for.");
        Assert.True(await teacher.EvaluateAsync<bool>("document.documentElement.scrollWidth <= window.innerWidth"), "wider than the phone");

        await coordinator.GotoAsync("/releases/due");
        await coordinator.GetByRole(AriaRole.Button, new() { Name = "It was sent: report of A001" }).ClickAsync();
        await Assertions.Expect(coordinator.Locator("h1")).ToHaveTextAsync("No report of a release is to be sent.");
        Assert.Empty(host.Troubles);
        await using var db = host.Portal.OpenDb();
        Assert.Equal((138, "Ada Adult", true), await db.Releases.Select(r => new ValueTuple<int, string?, bool>(r.Fish, r.SignedAs, r.ReportedAt != null)).SingleAsync());
    }

    private static async Task AskAsync(IPage page)
    {
        await page.GotoAsync("/releases/bookings");
        await page.GetByRole(AriaRole.Link, new() { Name = "Ask for a release day" }).ClickAsync();
        await page.GetByLabel("How many people come?").FillAsync("28");
        await page.GetByLabel("How many buses?").FillAsync("1");
        foreach (var (choice, day) in new[] { ("First", "2027-02-03"), ("Second", "2027-02-04"), ("Third", "2027-02-05") })
        {
            await page.SelectOptionAsync($"#{choice}-site", new SelectOptionValue { Index = 1 });
            await page.FillAsync($"#{choice}-on", day);
            await page.SelectOptionAsync($"#{choice}-part", "Afternoon");
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Ask for it" }).ClickAsync();
        await Assertions.Expect(page.Locator("#notice")).ToContainTextAsync("nothing is booked until then");
    }

    private static async Task SettleAsync(IPage page)
    {
        await page.GotoAsync("/releases/bookings");
        await page.GetByRole(AriaRole.Link, new() { Name = "Wed 3 Feb 2027" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Settle this one" }).First.ClickAsync();
        await page.Locator("input[name='Input.Helpers']").First.CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Settle it" }).ClickAsync();
        await Assertions.Expect(page.Locator("#notice")).ToContainTextAsync("Settled: Birch Lane School with A001 at Footbridge");
        await page.GetByLabel("Who at the agency said so?").FillAsync("District biologist");
        await page.GetByRole(AriaRole.Button, new() { Name = "The agency agrees" }).ClickAsync();
        await Assertions.Expect(page.Locator("#notice")).ToHaveTextAsync("Kept: the agency agrees.");
    }

    private static async Task CountAsync(IPage page, string which, string counter, string fish)
    {
        await page.GetByLabel($"{which} of A001: who counted?").FillAsync(counter);
        await page.FillAsync("#fish-A001", fish);
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter the count" }).ClickAsync();
        await Assertions.Expect(page.Locator("#notice")).ToContainTextAsync($"{which.ToLowerInvariant()} of A001");
    }
}
