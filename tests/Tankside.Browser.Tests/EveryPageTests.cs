using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Portal.Tests;
using Tankside.Portal.Tests.Access;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>
/// Every page of the address table in the three looks, wide and narrow, as somebody who is let in: axe finds nothing, nothing runs off the side, and
/// the keyboard comes everywhere. A run by itself takes every sixth page; with TANKSIDE_PICTURES set to a folder it takes all, and keeps each look of each
/// page there as a picture. Pages that are said in both languages are looked at in Spanish too, of a run by itself other pages than in English.
/// (LookTests reckons the contrast of every token in every look.)
/// </summary>
public class EveryPageTests
{
    private const int Wide = 1366, Narrow = 360;

    private static readonly AxeRunOptions ColoursAlone = new() { RunOnly = new RunOnlyOptions { Type = "rule", Values = ["color-contrast"] } };

    private static readonly string? Pictures = Environment.GetEnvironmentVariable("TANKSIDE_PICTURES");

    /// <summary>Answers that are no page: files, and what programs ask.</summary>
    private static bool IsPage(AddressRow row) => row.Method == "GET" && row.Pattern != AddressTable.Files
        && !row.Pattern.StartsWith("/api", StringComparison.Ordinal) && !row.Pattern.StartsWith("/_", StringComparison.Ordinal)
        && !row.Pattern.StartsWith("/health", StringComparison.Ordinal) && !row.Pattern.StartsWith("/openapi", StringComparison.Ordinal)
        && !Path.HasExtension(row.Pattern) && !row.Pattern.Contains("/papers/{id", StringComparison.Ordinal);

    [BrowserFact]
    public async Task Every_page_is_clean_in_every_look_and_width_and_open_to_the_keyboard()
    {
        var callers = await Callers.GatherAsync(DatabaseKind.Sqlite, listen: true);
        await using var host = BrowserHost.Of(callers);
        var visits = AddressTable.Rows.Where(IsPage).SelectMany(row => VisitorsOf(row).Select(caller => (Row: row, Caller: caller))).ToList();
        Assert.True(visits.Count > 120, $"only {visits.Count} pages");
        var spoken = SpokenOf(callers.Host);
        var inSpanish = visits.Where(v => spoken.Contains(v.Row.Pattern)).ToList();
        Assert.True(inSpanish.Count > 50, $"only {inSpanish.Count} in Spanish");

        var wrong = new List<string>();
        await LookAsync(visits.Index().Where(v => Pictures is not null || v.Index % 6 == 0).Select(v => v.Item), spanish: false);
        await ReadSpanishAsync(callers);
        await LookAsync(inSpanish.Index().Where(v => Pictures is not null || v.Index % 16 == 2).Select(v => v.Item), spanish: true);

        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Order(StringComparer.Ordinal)));

        async Task LookAsync(IEnumerable<(AddressRow Row, Caller Caller)> visits, bool spanish)
        {
            var lanes = visits.GroupBy(v => v.Caller).OrderByDescending(g => g.Count()).ToList();
            await Task.WhenAll(Lane(lanes, 0, spanish), Lane(lanes, 1, spanish));
        }

        async Task Lane(List<IGrouping<Caller, (AddressRow Row, Caller Caller)>> lanes, int first, bool spanish)
        {
            foreach (var lane in lanes.Index().Where(l => l.Index % 2 == first).Select(l => l.Item))
            {
                var page = lane.Key == Caller.Nobody ? await host.PageAsync() : await host.PageAsAsync(Enum.Parse<Role>($"{lane.Key}"));
                foreach (var (row, caller) in lane)
                {
                    var own = callers.AddressFor(caller, row);
                    foreach (var address in spanish ? [caller == Caller.Nobody ? $"{own}{(own.Contains('?', StringComparison.Ordinal) ? '&' : '?')}language=es" : own] : Languages(own, row))
                    {
                        var faults = await FaultsAsync(page, address, $"{caller}{row.Pattern}{(spanish || address.Contains("lang=es", StringComparison.Ordinal) ? "-es" : "")}", spanish);
                        lock (wrong)
                        {
                            wrong.AddRange(faults.Select(f => $"{row.Address} as {caller}{(spanish ? " in Spanish" : "")}: {f}"));
                        }
                    }
                }
            }
        }
    }

    /// <summary>Whoever works with a page first of all; the first page is another one for each role.</summary>
    private static IEnumerable<Caller> VisitorsOf(AddressRow row)
    {
        Caller[] order = [Caller.Nobody, Caller.Coordinator, Caller.ProgrammeLead, Caller.Teacher, Caller.KitHand, Caller.AgencyContact];
        return row.Pattern is "/" or "/me" ? order.Where(c => row.Expected(c) == 'y') : order.Where(c => row.Expected(c) == 'y').Take(1);
    }

    /// <summary>What stands in both languages for everybody who has the link is looked at in both.</summary>
    private static IEnumerable<string> Languages(string address, AddressRow row) =>
        row.Pattern.StartsWith("/t/", StringComparison.Ordinal) ? [address, $"{address}?lang=es"] : [address];

    /// <summary>Patterns of the adults' pages that are said in both languages.</summary>
    private static HashSet<string> SpokenOf(PortalHost host) =>
        [.. host.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<SpokenAttribute>() is not null).Select(e => $"/{e.RoutePattern.RawText!.TrimStart('/')}")];

    /// <summary>From now on; a session that is open keeps its language.</summary>
    private static Task ReadSpanishAsync(Callers callers) =>
        callers.Host.SeedAsync(db => db.Users.ToList().ForEach(p => p.Language = "es"));

    /// <param name="spanish">True for what is said in Spanish. Its colours are those of the English, and are not looked at again.</param>
    private static async Task<IReadOnlyList<string>> FaultsAsync(IPage page, string address, string name, bool spanish)
    {
        var faults = new List<string>();
        await page.SetViewportSizeAsync(Wide, 768);
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light, Contrast = Contrast.NoPreference });
        var answer = await page.GotoAsync(address);
        if (answer is not { Status: 200 or 404 })
        {
            return [$"answered {answer?.Status}"];
        }

        await LookAsync(null, "light");
        if (spanish)
        {
            if (await page.EvaluateAsync<string>("document.documentElement.lang") is var lang && lang != "es")
            {
                faults.Add($"is said to be in the language “{lang}”");
            }

            await page.SetViewportSizeAsync(Narrow, 740);
            await LookAsync(null, "light");
            return faults;
        }

        faults.AddRange(await page.EvaluateAsync<string[]>(KeyboardFaults));
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
        await LookAsync(ColoursAlone, "dark");
        await page.SetViewportSizeAsync(Narrow, 740);
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light, Contrast = Contrast.More });
        await LookAsync(ColoursAlone, "contrast");
        return faults;

        async Task LookAsync(AxeRunOptions? rules, string look)
        {
            faults.AddRange((await page.RunAxe(rules)).Violations.SelectMany(v => v.Nodes.Select(n => $"{look}: {v.Id}: {n.Html}")));
            if (!await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
            {
                faults.Add($"{look}: runs off the side");
            }

            if (Pictures is not null)
            {
                var file = string.Concat(name.Select(c => char.IsLetterOrDigit(c) ? c : '-')).Trim('-');
                await page.ScreenshotAsync(new() { FullPage = true, Path = Path.Combine(Pictures, $"{file}-{look}-{page.ViewportSize!.Width}.png") });
            }
        }
    }

    /// <summary>
    /// Whatever can be pressed or typed into takes the focus by itself, in the order of the page, and shows that it has it.
    /// </summary>
    private const string KeyboardFaults =
        """
        () => {
          const faults = [];
          const name = e => e.outerHTML.slice(0, 120);
          const seen = e => e.checkVisibility({ visibilityProperty: true }) && e.getClientRects().length > 0;
          if (document.querySelector('[tabindex]:not([tabindex="0"],[tabindex="-1"])')) faults.push('an order of its own by tabindex');
          for (const e of document.querySelectorAll('a[href],button,input:not([type=hidden]),select,textarea,summary,[role=button],[role=link],[role=option],[onclick]')) {
            if (!seen(e) || e.disabled || e.closest('[inert]')) continue;

            e.focus({ focusVisible: true, preventScroll: true });
            if (document.activeElement !== e) { faults.push('cannot be reached: ' + name(e)); continue; }
            if (e.tabIndex < 0 && !e.closest('[role=listbox],[role=radiogroup],[role=grid]')) faults.push('no Tab leads to: ' + name(e));
            if (getComputedStyle(e).outlineStyle === 'none' && !e.matches('[type=radio],[type=checkbox]')) faults.push('does not show the focus: ' + name(e));
          }
          document.activeElement?.blur();
          return faults;
        }
        """;
}
