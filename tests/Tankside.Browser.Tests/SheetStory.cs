using System.Text;
using Deque.AxeCore.Playwright;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>A coordinator on a telephone brings in a class's sheet, sees what is odd in it, stores it and takes it back.</summary>
public class SheetStory
{
    private const string Sheet =
        "Class log,,,\n,,Dead,\nDate,Water °F,eggs,Notes\n1/29/2027,52,1,\n2/1/2027,5.2,0,\n2/2/2027,512,0,\n2/3/2027,51.5,0,fine\n";

    [BrowserFact]
    public async Task From_the_file_to_the_stored_readings_and_back()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsAsync(Role.Coordinator);
        await page.SetViewportSizeAsync(360, 740);
        await page.GotoAsync("/tanks");
        await page.GetByText("Import a sheet of readings").ClickAsync();
        await page.Locator("#file").SetInputFilesAsync(new FilePayload { Name = "class.csv", MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(Sheet) });
        await page.GetByText("Look at it first").ClickAsync();

        await Assertions.Expect(page.Locator("#questions")).ToContainTextAsync("Which tank are the readings of?");
        Assert.Empty((await page.RunAxe()).Violations);
        await page.Locator("#of-tank").SelectOptionAsync("A001");
        await page.GetByText("Look again").ClickAsync();

        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("3 of 4 rows can be stored.");
        await Assertions.Expect(page.Locator("#rows")).ToContainTextAsync("Was it 52 °F?");
        await Assertions.Expect(page.Locator("#rows")).ToContainTextAsync("512 is not a temperature");
        Assert.Empty((await page.RunAxe()).Violations);
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"));
        await page.GetByText("Store these 3 readings").ClickAsync();

        // The page looks again by itself until the readings are stored.
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("3 readings of 4 rows stored.", new() { Timeout = 60_000 });
        Assert.Empty((await page.RunAxe()).Violations);
        await page.GetByText("Take back the whole import").ClickAsync();

        await Assertions.Expect(page.Locator("#notice")).ToContainTextAsync("Taken back: 3 readings count no more.");
        await using var db = host.Portal.OpenDb();
        Assert.Equal(0, await db.Readings.CountAsync(r => r.State != ReadingState.Withdrawn));
        Assert.Empty(host.Troubles);
    }
}
