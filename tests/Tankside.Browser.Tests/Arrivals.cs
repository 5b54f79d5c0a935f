using System.Diagnostics;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Tankside.Browser.Tests;

/// <summary>Waiting for another page.</summary>
internal static class Arrivals
{
    /// <summary>Waits until the page's address fits and the page is loaded.</summary>
    /// <remarks>
    /// Playwright's own wait looks whether a page is loaded and listens for it afterwards; a page that is loaded in between is
    /// waited for in vain. Here the browser is asked instead.
    /// </remarks>
    /// <param name="page">The page that is going elsewhere.</param>
    /// <param name="address">A regular expression that the new address has to contain.</param>
    public static async Task ArrivesAtAsync(this IPage page, string address)
    {
        await Assertions.Expect(page).ToHaveURLAsync(new Regex(address), new() { Timeout = 30_000 });
        var patience = Stopwatch.StartNew();

        // Asked again and again: where a page has no script, nothing in it can tell when it is done.
        while (await page.EvaluateAsync<string>("document.readyState") != "complete")
        {
            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(30), $"{page.Url} was not loaded after half a minute.");
            await Task.Delay(20);
        }
    }
}
