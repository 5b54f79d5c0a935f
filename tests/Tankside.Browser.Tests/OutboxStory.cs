using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Tests;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>Wi-Fi that breaks and a browser that is killed, twenty times each: no reading is lost, none is doubled, each has its own time.</summary>
public class OutboxStory
{
    private const int Times = 20;

    [BrowserTheory]
    [InlineData(Cut.Before)]
    [InlineData(Cut.During)]
    [InlineData(Cut.After)]
    public async Task A_network_that_breaks_and_a_browser_that_is_killed_lose_and_double_nothing(Cut where)
    {
        var (portal, world) = await PortalHost.CreateWithWorldAsync(Storage.DatabaseKind.Sqlite);
        await using var _ = portal;
        await using var network = new CutNetwork(portal.Listen());
        await using var laptop = new SharedLaptop(network.Address);
        var label = $"/t/{world.One.RoomCodes[0].Code}";
        var clock = Stopwatch.StartNew();
        var typed = new List<Typed>();
        var page = await laptop.StartAsync();
        await OpenAsync(page, label);
        for (var i = 0; i < Times; i++)
        {
            var water = string.Create(CultureInfo.InvariantCulture, $"{50 + (i / 10.0):0.0}");
            await page.FillAsync("#water", water);
            await page.ClickAsync("label[for=unit-f]");
            await page.ClickAsync("label[for=moving-yes]");
            network.CutAt(where);
            var before = clock.Elapsed;
            await page.ClickAsync("button.send");
            await network.Broke;
            if (i % 2 == 0)
            {
                await page.WaitForSelectorAsync("html[data-kept] #outbox li.waiting");
            }
            else if (where == Cut.Before)
            {
                // Nothing tells from outside when it was written down; the page is the only witness.
                await page.WaitForSelectorAsync("html[data-kept]");
            }

            var after = clock.Elapsed;
            await laptop.KillAsync();
            await network.MendAsync();
            typed.Add(new Typed(water, before, after, clock.Elapsed));
            page = await laptop.StartAsync();
            await OpenAsync(page, label);
        }

        var settled = clock.Elapsed;
        await using var db = portal.OpenDb();
        var stored = await db.Readings.AsNoTracking().OrderBy(r => r.Id).ToListAsync();
        Assert.Equal(typed.Select(t => t.Water), stored.Select(r => r.TypedWater).Order());
        Assert.All(stored, r => Assert.Equal((ReadingState.Accepted, true), (r.State, r.Seen.Moving)));
        foreach (var (sent, reading) in typed.Zip(stored.OrderBy(r => r.TypedWater)))
        {
            // The portal's clock stands still, so the distance to it is how long the reading says that it waited.
            var waited = portal.Now - reading.At;
            var least = where == Cut.After ? TimeSpan.Zero : sent.Mended - sent.After;
            var most = where == Cut.After ? TimeSpan.FromSeconds(15) : settled - sent.Before;
            Assert.InRange(waited, least, most);
        }
    }

    [BrowserFact]
    public async Task Without_a_network_the_label_opens_the_form_two_readings_wait_and_both_arrive_when_it_is_back()
    {
        var (portal, world) = await PortalHost.CreateWithWorldAsync(Storage.DatabaseKind.Sqlite);
        await using var _ = portal;
        await using var network = new CutNetwork(portal.Listen());
        await using var laptop = new SharedLaptop(network.Address);
        var (known, other) = ($"/t/{world.One.RoomCodes[0].Code}", $"/t/{world.One.RoomCodes[1].Code}?lang=es");
        var page = await laptop.StartAsync();
        await OpenAsync(page, known);
        network.CutAt(Cut.Before);

        await page.GotoAsync(known);
        Assert.Contains("There is no Wi-Fi now", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        await SendAsync(page, "51.5");
        await page.WaitForSelectorAsync("html[data-kept] #outbox li.waiting");
        Assert.Contains("Your reading is kept on this device", await page.InnerTextAsync("main"), StringComparison.Ordinal);

        // Another tank, never opened on this device, in Spanish; and at the first tank the same number once more, which is another reading.
        await page.GotoAsync(other);
        Assert.Contains("Ahora no hay Wi-Fi", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        await SendAsync(page, "10,5", "unit-c");
        await page.WaitForSelectorAsync("html[data-kept] #outbox li.waiting");
        await page.GotoAsync(known);
        await SendAsync(page, "51.5");
        await page.WaitForSelectorAsync("html[data-kept] #outbox li.waiting:nth-child(3)");
        Assert.Contains("3 readings wait on this device", await page.InnerTextAsync("#outbox"), StringComparison.Ordinal);

        await network.MendAsync();
        await page.EvaluateAsync("dispatchEvent(new Event('online'))");
        await page.WaitForSelectorAsync("#outbox li.arrived ~ li.arrived ~ li.arrived"); // all three, in whatever order

        Assert.Contains("Sent from this device", await page.InnerTextAsync("#outbox"), StringComparison.Ordinal);
        await using var db = portal.OpenDb();
        var stored = (await db.Readings.AsNoTracking().Select(r => new { r.TypedWater, r.TypedUnit }).ToListAsync()).Select(r => $"{r.TypedWater} {r.TypedUnit}");
        Assert.Equal(["10,5 C", "51.5 F", "51.5 F"], stored.Order(StringComparer.Ordinal));
    }

    [BrowserFact]
    public async Task A_filter_that_answers_in_the_portals_place_has_taken_nothing()
    {
        var (portal, world) = await PortalHost.CreateWithWorldAsync(Storage.DatabaseKind.Sqlite);
        await using var _ = portal;
        await using var network = new CutNetwork(portal.Listen());
        await using var laptop = new SharedLaptop(network.Address);
        var page = await laptop.StartAsync();
        await OpenAsync(page, $"/t/{world.One.RoomCodes[0].Code}");
        network.CutAt(Cut.Filtered);

        await SendAsync(page, "51.5");

        await page.WaitForSelectorAsync("html[data-kept]");
        await page.WaitForSelectorAsync("#outbox li.arrived"); // the filter lets the next one through
        await using var db = portal.OpenDb();
        Assert.Equal("51.5", (await db.Readings.SingleAsync()).TypedWater);
    }

    [BrowserFact]
    public async Task First_aid_is_there_without_a_network_and_what_was_seen_is_sent_later()
    {
        var (portal, world) = await PortalHost.CreateWithWorldAsync(Storage.DatabaseKind.Sqlite);
        await using var _ = portal;
        await using var network = new CutNetwork(portal.Listen());
        await using var laptop = new SharedLaptop(network.Address);
        var label = $"/t/{world.One.RoomCodes[0].Code}";
        var page = await laptop.StartAsync();
        await OpenAsync(page, label);
        await OpenAsync(page, label); // the worker stands between from the second visit on, and keeps the first aid beside the form
        await page.EvaluateAsync(
            "new Promise(done => { const look = async () => await caches.match(location.pathname + '/help') ? done() : setTimeout(look, 20); look(); })");
        network.CutAt(Cut.Before);
        await page.GotoAsync($"{label}/help");

        await page.ClickAsync("button[value=still]");

        await page.WaitForSelectorAsync("html[data-kept] #outbox li.waiting");
        Assert.Equal("still", await page.Locator(".aid:visible").GetAttributeAsync("data-sign"));
        await network.MendAsync();
        await page.EvaluateAsync("dispatchEvent(new Event('online'))");
        await page.WaitForSelectorAsync("#outbox li.arrived");
        await using var db = portal.OpenDb();
        Assert.False((await db.Readings.SingleAsync()).Seen.Moving);
    }

    [BrowserFact]
    public async Task What_the_portal_will_not_have_stays_on_the_device_until_somebody_looks_again()
    {
        var (portal, world) = await PortalHost.CreateWithWorldAsync(Storage.DatabaseKind.Sqlite);
        await using var _ = portal;
        await using var network = new CutNetwork(portal.Listen());
        await using var laptop = new SharedLaptop(network.Address);
        var label = $"/t/{world.One.RoomCodes[0].Code}";
        var page = await laptop.StartAsync();
        await OpenAsync(page, label);
        network.CutAt(Cut.Before);
        await SendAsync(page, "512");
        await page.WaitForSelectorAsync("html[data-kept]");
        await network.MendAsync();

        await page.GotoAsync(label);
        await page.GetByRole(AriaRole.Button, new() { Name = "Look again" }).ClickAsync();
        Assert.Contains("512 is not a temperature", await page.InnerTextAsync("#water-error"), StringComparison.Ordinal);
        await SendAsync(page, "51.2");
        await page.ArrivesAtAsync(@"/t/.*\?sent=");

        await page.GotoAsync(label);
        await WorkerStandsAsync(page);
        Assert.Equal(0, await page.Locator("#outbox li").CountAsync());
        await using var db = portal.OpenDb();
        Assert.Equal("51.2", (await db.Readings.SingleAsync()).TypedWater);
    }

    [BrowserFact]
    public async Task A_device_that_can_keep_nothing_says_so_and_gives_the_line_for_the_paper()
    {
        var (portal, world) = await PortalHost.CreateWithWorldAsync(Storage.DatabaseKind.Sqlite);
        await using var _ = portal;
        await using var network = new CutNetwork(portal.Listen());
        await using var laptop = new SharedLaptop(network.Address);
        var page = await laptop.StartAsync();
        await page.AddInitScriptAsync("Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('full', 'QuotaExceededError'); } })");

        await page.GotoAsync($"/t/{world.One.RoomCodes[0].Code}");

        await page.WaitForSelectorAsync("#outbox p");
        Assert.Contains("write it on the wall sheet", await page.InnerTextAsync("#outbox"), StringComparison.Ordinal);
        await page.GotoAsync($"/t/{world.One.RoomCodes[0].Code}/help");
        await page.ClickAsync("button[value=still]"); // the pressed button goes with it
        await page.ArrivesAtAsync(@"/help\?sign=still&sent=");

        await page.GotoAsync($"/t/{world.One.RoomCodes[0].Code}");
        network.CutAt(Cut.Before);
        await SendAsync(page, "51.5");
        await page.WaitForSelectorAsync("#outbox .paper-line");
        Assert.StartsWith("51.5 °F", await page.InnerTextAsync("#outbox .paper-line"), StringComparison.Ordinal);
        await network.MendAsync();
        await page.ClickAsync("#outbox button");
        await page.ArrivesAtAsync(@"/t/.*\?sent=");
    }

    private static async Task SendAsync(IPage page, string water, string unit = "unit-f")
    {
        await page.FillAsync("#water", water);
        await page.ClickAsync($"label[for={unit}]");
        await page.ClickAsync("button.send");
    }

    /// <summary>Opens the label's page, lets the worker take its place, and waits until nothing on the device waits to be sent.</summary>
    private static async Task OpenAsync(IPage page, string label)
    {
        await page.GotoAsync(label);
        await WorkerStandsAsync(page);
        await page.EvaluateAsync(
            "new Promise(done => { const look = async () => (await Outbox.all()).some(e => e.state === 'waiting') ? setTimeout(look, 50) : done(); look(); })");
    }

    private static Task WorkerStandsAsync(IPage page) => page.EvaluateAsync(
        "navigator.serviceWorker.controller ? null : new Promise(done => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }))");

    /// <param name="Before">Just before it was sent.</param>
    /// <param name="After">When the line had broken.</param>
    /// <param name="Mended">When the line was whole again.</param>
    private sealed record Typed(string Water, TimeSpan Before, TimeSpan After, TimeSpan Mended);
}
