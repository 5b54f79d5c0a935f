using Tankside.Portal.Tests;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>What a class page costs on slow Wi-Fi: every byte on the wire, headers, fonts, scripts and the worker's copies included.</summary>
public class ClassPageWeightTests
{
    /// <summary>While it is developed the portal sends files as they lie on the disk; here as the published program does, pressed and with their marks.</summary>
    private static readonly PortalHostSettings AsPublished = new()
    {
        Keys = new Dictionary<string, string> { ["ReloadStaticAssetsAtRuntime"] = "false", ["EnableStaticAssetsDevelopmentCaching"] = "true" },
    };

    private const int FirstVisit = 60 * 1024, LaterVisit = 15 * 1024;

    [BrowserFact]
    public async Task A_first_visit_is_under_sixty_kilobytes_and_a_later_one_and_the_thanks_are_under_fifteen()
    {
        var (portal, world) = await PortalHost.CreateWithWorldAsync(Storage.DatabaseKind.Sqlite, AsPublished);
        await using var _ = portal;
        await using var network = new CutNetwork(portal.Listen());
        await using var laptop = new SharedLaptop(network.Address);
        var label = $"/t/{world.One.RoomCodes[0].Code}";
        var page = await laptop.StartAsync();

        await page.GotoAsync(label);
        await page.EvaluateAsync(
            "navigator.serviceWorker.controller ? null : new Promise(done => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }))");
        Assert.InRange(network.TakeBytes(), 10_000, FirstVisit);

        // The worker now keeps its copies of the form and of first aid: that is in the second visit's bill.
        await page.GotoAsync(label);
        await page.EvaluateAsync(
            "new Promise(done => { const look = async () => await caches.match(location.pathname + '/help') ? done() : setTimeout(look, 20); look(); })");
        Assert.InRange(network.TakeBytes(), 1000, LaterVisit);

        await page.GotoAsync(label);
        Assert.InRange(network.TakeBytes(), 1000, LaterVisit);

        await page.FillAsync("#water", "52");
        await page.ClickAsync("button.send");
        await page.ArrivesAtAsync(@"/t/.*\?sent=");
        Assert.InRange(network.TakeBytes(), 1000, LaterVisit);
    }
}
