using System.Net;
using Tankside.Portal.Demo;
using Tankside.Portal.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>What a published portal needs to start and to sit there: the first answer, idle memory, memory of each open page.</summary>
public static class StartAndMemory
{
    /// <summary>On both sides the portal: published and so compiled beforehand, beside as it was built.</summary>
    public static async Task<Comparison> StartAsync(DatabaseKind kind, bool quick)
    {
        await using var database = await TestDatabase.CreateEmptyAsync(kind);
        await PortalProcess.SeedDemoAsync(PortalProcess.Published, database);
        return await Comparison.RunAsync(
            "start to the first answer, compiled beforehand beside not", kind, quick ? 2 : 7, Comparison.AsSeconds,
            portal: () => OnceAsync(PortalProcess.Published), bare: () => OnceAsync(PortalProcess.Built));

        async Task<Side> OnceAsync(string folder)
        {
            using var portal = await PortalProcess.ServeAsync(folder, database);
            return new Side(portal.SecondsToFirstAnswer);
        }
    }

    /// <summary>The demo season's morning round, open in many windows of the coordinator.</summary>
    public static async Task<object> MemoryAsync(DatabaseKind kind, bool quick)
    {
        var (rest, pages) = quick ? (TimeSpan.FromSeconds(5), 10) : (TimeSpan.FromMinutes(1), 100);
        await using var database = await TestDatabase.CreateEmptyAsync(kind);
        await PortalProcess.SeedDemoAsync(PortalProcess.Published, database);
        using var portal = await PortalProcess.ServeAsync(PortalProcess.Published, database);
        await Task.Delay(rest);
        var idle = portal.MemoryMiB();

        var cookies = new CookieContainer();
        using var client = new HttpClient(new HttpClientHandler { CookieContainer = cookies, AllowAutoRedirect = false }) { BaseAddress = portal.Address };
        await client.SignInAsync("coordinator@alder-basin.example", AlderBasin.Password);
        var open = new List<Circuit>();
        for (var i = 0; i < pages / 10; i++)
        {
            open.Add(await Circuit.OpenAsync(client, cookies, "/round"));
        }

        // The first ones also pay for what all share.
        var few = portal.MemoryMiB();
        while (open.Count < pages)
        {
            open.Add(await Circuit.OpenAsync(client, cookies, "/round"));
        }

        var many = portal.MemoryMiB();
        var still = open.Count(c => c.IsOpen);
        await Task.WhenAll(open.Select(c => c.DisposeAsync().AsTask()));
        return FormattableString.Invariant(
            $"memory, {kind}: {idle:0} MiB after {rest.TotalSeconds:0} s idle, {few:0} MiB with {pages / 10} open rounds, {many:0} MiB with {pages} ({still} still open); {(many - few) / (pages - (pages / 10)):0.00} MiB each");
    }
}
