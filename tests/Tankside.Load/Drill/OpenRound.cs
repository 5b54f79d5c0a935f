using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.Playwright;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Load.Drill;

/// <summary>A coordinator's morning round, open in a real browser while its portal dies.</summary>
public sealed class OpenRound : IAsyncDisposable
{
    private const string Words = "The teacher was called; a fan is on its way.";

    private const float Patience = 60_000;

    private readonly IPlaywright playwright;
    private readonly IBrowser browser;
    private readonly IPage page;
    private readonly ConcurrentQueue<string> said = new();

    /// <summary>How often the page was loaded.</summary>
    private int loaded;

    private OpenRound(IPlaywright playwright, IBrowser browser, IPage page)
    {
        (this.playwright, this.browser, this.page) = (playwright, browser, page);
        page.DOMContentLoaded += (_, _) => Interlocked.Increment(ref loaded);
        page.Console += (_, message) => said.Enqueue(message.Text);
    }

    public static async Task<OpenRound> StartAsync(Uri address, TestProgramme programme)
    {
        var playwright = await Playwright.CreateAsync();
        var browser = await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = Chromium.Executable, Args = Chromium.Switches });
        var context = await browser.NewContextAsync(new BrowserNewContextOptions { BaseURL = address.ToString(), IgnoreHTTPSErrors = true, Locale = "en-US" });
        context.SetDefaultTimeout(Patience);
        var page = await context.NewPageAsync();
        await page.GotoAsync("/sign-in");
        await page.Locator("input[type=email]").FillAsync(programme.EmailOf(Role.Coordinator));
        await page.Locator("input[type=password]").FillAsync(TestWorld.Password);
        await page.Locator("main button[type=submit]").ClickAsync();
        await page.WaitForURLAsync(url => !url.Contains("/sign-in", StringComparison.Ordinal));
        await page.GotoAsync($"/round?tank={programme.Tanks[0].Code}");
        return new OpenRound(playwright, browser, page);
    }

    /// <summary>Types a note, lets the portal that has the page fall, and looks how long the page needs to come back by itself, and with what.</summary>
    public async Task<string> SurvivesAsync(Func<int, Task> fallAsync)
    {
        // Opened anew: after a fall it is open at the portal that was left, while its cookie still names the one that came back.
        await page.GotoAsync(page.Url);
        await WriteAsync(Words);
        await page.WaitForTimeoutAsync(2000);
        var node = (await page.Context.CookiesAsync()).Single(c => c.Name == "tankside_node").Value;
        var loads = Volatile.Read(ref loaded);
        var watch = Stopwatch.StartNew();
        await fallAsync(int.Parse(node, System.Globalization.CultureInfo.InvariantCulture));
        await LoadedAfterAsync(loads);
        var again = watch.Elapsed;
        await NoteAsync();
        var kept = await page.Locator("#note").InputValueAsync();
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Leave it" }).ClickAsync();
        return FormattableString.Invariant(
            $"loaded again by itself after {again.TotalSeconds:0.0} s, answers clicks after {watch.Elapsed.TotalSeconds:0.0} s, {(kept == Words ? "the note that was typed is kept" : $"of the note \"{kept}\" is kept")}");
    }

    private async Task LoadedAfterAsync(int loads)
    {
        for (var until = DateTime.UtcNow.AddSeconds(60); Volatile.Read(ref loaded) == loads; await Task.Delay(25))
        {
            if (DateTime.UtcNow > until)
            {
                throw new TimeoutException($"The round did not come back. It said:\n{string.Join('\n', said.TakeLast(30))}");
            }
        }
    }

    private async Task WriteAsync(string words)
    {
        await NoteAsync();
        await page.Locator("#note").FillAsync(words);
    }

    /// <summary>The page answers a click when its dialog opens.</summary>
    private async Task NoteAsync()
    {
        var note = page.Locator("#note");
        for (var until = DateTime.UtcNow.AddSeconds(60); DateTime.UtcNow < until;)
        {
            try
            {
                if (!await note.IsVisibleAsync())
                {
                    await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Note" }).First.ClickAsync(new LocatorClickOptions { Timeout = 2000 });
                    await note.WaitForAsync(new LocatorWaitForOptions { Timeout = 5000 });
                }

                return;
            }
            catch (TimeoutException)
            {
                // Not connected yet, or the click opened it late.
            }
        }

        throw new TimeoutException("The round does not answer clicks.");
    }

    public async ValueTask DisposeAsync()
    {
        await browser.DisposeAsync();
        playwright.Dispose();
    }
}
