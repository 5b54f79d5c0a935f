using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>The whole way once: a class reads, the coordinator acts, the teacher releases, the lead takes the account away.</summary>
public class SeasonStory
{
    private static readonly string[] Ends =
    [
        "dead_on_arrival", "egg_losses", "alevin_losses", "fry_losses", "put_down", "sampled", "transferred_out", "released", "still_in_tank", "unaccounted",
    ];

    [BrowserTheory, BothDatabases]
    public async Task From_the_class_to_the_file_that_balances(DatabaseKind kind)
    {
        await using var host = await BrowserHost.StartAsync(kind);
        await ClassReadsAsync(host);
        await CoordinatorActsAsync(host);
        await TeacherReleasesAsync(host);

        var lead = await host.PageAsAsync(Role.ProgrammeLead);
        await lead.GotoAsync("/totals");
        var download = await lead.RunAndWaitForDownloadAsync(() => lead.GetByText("Download as CSV").ClickAsync());
        var rows = Rows(await File.ReadAllTextAsync(await download.PathAsync()));

        Assert.All(rows, row => Assert.Equal(
            Number(row, "eggs_received") + Number(row, "transferred_in"), Ends.Sum(end => Number(row, end))));
        var first = rows.Single(r => r["tank"] == "A001");
        Assert.Equal(
            (150, 2, 3, 120, 0, 25),
            (Number(first, "eggs_received"), Number(first, "dead_on_arrival"), Number(first, "alevin_losses"), Number(first, "released"),
                Number(first, "still_in_tank"), Number(first, "unaccounted")));
        Assert.Equal("80.00", first["survival_percent"]);
        Assert.Equal("Footbridge", first["release_site"]);
        foreach (var (button, begins) in new[] { ("Download as spreadsheet (XLSX)", "PK"), ("Download as report (PDF)", "%PDF") })
        {
            var file = await lead.RunAndWaitForDownloadAsync(() => lead.GetByText(button).ClickAsync());
            Assert.StartsWith(begins, await File.ReadAllTextAsync(await file.PathAsync()), StringComparison.Ordinal);
        }

        Assert.Empty(host.Troubles);
    }

    private static async Task ClassReadsAsync(BrowserHost host)
    {
        var form = await host.PageAsync(width: 360, withScripts: false);
        await form.GotoAsync($"/t/{host.World.One.RoomCodes[0].Code}");
        await form.FillAsync("#water", "61");
        await form.ClickAsync("label[for=unit-f]");
        await form.FillAsync("#deadAlevins", "3");
        await form.ClickAsync("button.send");
        await form.Locator(".said").WaitForAsync();
    }

    private static async Task CoordinatorActsAsync(BrowserHost host)
    {
        var round = await host.PageAsAsync(Role.Coordinator);
        await round.GotoAsync("/round?tank=A001");
        await round.Locator("#round[data-live=true]").WaitForAsync();
        await Assertions.Expect(round.Locator(".detail")).ToContainTextAsync("61 °F");

        // The call found the chiller unplugged; later the adult reads 52 °F, which is the coordinator's to enter.
        host.Portal.Time.Advance(TimeSpan.FromHours(20));
        await round.Locator(".act button", new() { HasText = "Call" }).ClickAsync();
        await round.FillAsync("#told-water", "52");
        await round.Locator(".mud-dialog-actions button").Last.ClickAsync();
        await Assertions.Expect(round.Locator(".mud-dialog")).ToHaveCountAsync(0);
        await host.Portal.JudgeAsync();
        await using var db = host.Portal.OpenDb();
        Assert.False(await db.Flags.AnyAsync(f => f.TankId == host.World.One.Tanks[0].Id && f.Kind == FlagKind.Warm && f.State == FlagState.Open));
    }

    private static async Task TeacherReleasesAsync(BrowserHost host)
    {
        var teacher = await host.PageAsAsync(Role.Teacher);
        await teacher.GotoAsync("/releases");
        var form = teacher.Locator("#record");
        await form.Locator("#tank").SelectOptionAsync(new SelectOptionValue { Index = 1 });
        await form.Locator("#site").SelectOptionAsync(new SelectOptionValue { Index = 1 });
        await form.Locator("#permit").SelectOptionAsync(new SelectOptionValue { Index = 1 });
        await form.Locator("#day").FillAsync(host.Portal.Now.AddHours(-7).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        await form.Locator("#time").FillAsync("00:05");
        await form.Locator("#fish").FillAsync("120");
        await form.GetByLabel("These were the last", new LocatorGetByLabelOptions { Exact = false }).CheckAsync();
        await form.Locator("button[type=submit]").ClickAsync();
        await Assertions.Expect(teacher.Locator("h1")).ToContainTextAsync("120 fish");
    }

    private static List<Dictionary<string, string>> Rows(string csv)
    {
        var lines = csv.TrimStart('\uFEFF').Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Select(l => l.Split(',')).ToList();
        return [.. lines.Skip(1).Select(cells => lines[0].Zip(cells).ToDictionary(c => c.First, c => c.Second))];
    }

    private static int Number(Dictionary<string, string> row, string column) => int.Parse(row[column], CultureInfo.InvariantCulture);
}
