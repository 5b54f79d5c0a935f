using System.Diagnostics;
using Microsoft.Playwright;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>A browser with a profile on disk that can be killed and started again, like a laptop whose lid was shut or whose battery died.</summary>
public sealed class SharedLaptop : IAsyncDisposable
{
    private readonly DirectoryInfo profile = Directory.CreateTempSubdirectory("tankside-laptop");
    private readonly Uri address;
    private IPlaywright? playwright;
    private IBrowserContext? browser;

    public SharedLaptop(Uri address)
    {
        this.address = address;
    }

    /// <summary>Starts the browser, again or for the first time, and gives its page.</summary>
    public async Task<IPage> StartAsync()
    {
        playwright ??= await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchPersistentContextAsync(profile.FullName, new BrowserTypeLaunchPersistentContextOptions
        {
            ExecutablePath = Chromium.Executable ?? throw new InvalidOperationException(Chromium.WhyUnavailable),
            Args = Chromium.Switches,
            BaseURL = address.ToString(),
            ViewportSize = new ViewportSize { Width = 360, Height = 740 },
            Locale = "en-US",
            ReducedMotion = ReducedMotion.Reduce,
        });
        return browser.Pages.Count > 0 ? browser.Pages[0] : await browser.NewPageAsync();
    }

    /// <summary>Kills every process of the browser at once; it gets no chance to write anything down.</summary>
    public async Task KillAsync()
    {
        foreach (var process in Process.GetProcesses().Where(IsOurs))
        {
            using (process)
            {
                process.Kill();
                await process.WaitForExitAsync();
            }
        }

        foreach (var left in profile.GetFiles("Singleton*"))
        {
            left.Delete();
        }

        browser = null;
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
        {
            await browser.CloseAsync();
        }

        await KillAsync();
        playwright?.Dispose();
        profile.Delete(recursive: true);
    }

    private bool IsOurs(Process process)
    {
        try
        {
            return File.ReadAllText($"/proc/{process.Id}/cmdline").Contains($"--user-data-dir={profile.FullName}", StringComparison.Ordinal);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false; // gone meanwhile, or not ours
        }
    }
}
