using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Portal.Eggs.Runs;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Eggs.Runs;

/// <summary>A run as people handle it, in a portal whose solver takes the first good answer.</summary>
internal static class RunSteps
{
    /// <summary>The run has a plan kept or not; whoever planned is done.</summary>
    public static async Task PlanAsync(this PortalHost host, HttpClient client, Guid run)
    {
        await client.DoAsync(run, "plan");
        if (host.Services.GetRequiredService<PlanRun>().AtWork(run) is { } planning)
        {
            await planning.Work;
        }
    }

    public static async Task DoAsync(this HttpClient client, Guid run, string deed)
    {
        var answer = await client.PostFormAsync($"/runs/{run}", new Dictionary<string, string> { ["Input.Deed"] = deed }, "deed");
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
    }

    /// <summary>A tick as a phone sends it that had kept it for some minutes.</summary>
    public static Task<HttpResponseMessage> TickAsync(this HttpClient phone, string code, Guid id, string stop, TickDeed deed, int keptMinutes = 0) =>
        phone.PostAsync($"/run/{code}/ticks", new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["id"] = $"{id}",
            ["stop"] = stop,
            ["deed"] = $"{deed}",
            ["typedAt"] = "1000000",
            ["sentAt"] = $"{1000000 + (keptMinutes * 60000)}",
        }));

    public static async Task<(PortalHost Host, TestWorld World, MadeRun Run, HttpClient Coordinator)> StartAsync(DatabaseKind kind, PlanPatience patience) =>
        await StartAsync(kind, With(patience));

    public static async Task<(PortalHost Host, TestWorld World, MadeRun Run, HttpClient Coordinator)> StartAsync(DatabaseKind kind, PortalHostSettings? settings = null)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, settings ?? Quick);
        var run = new MadeRun(world.One);
        await host.SeedAsync(run.AddTo);
        return (host, world, run, await host.ClientAs(Role.Coordinator, world.One));
    }

    public static PortalHostSettings Quick { get; } = With(new PlanPatience(TimeSpan.Zero, TimeSpan.Zero));

    private static PortalHostSettings With(PlanPatience patience) => new() { Services = services => services.Replace(ServiceDescriptor.Singleton(patience)) };

    public static async Task<List<RunStop>> StopsAsync(this PortalHost host, Guid run)
    {
        await using var db = host.OpenDb();
        return await db.RunStops.AsNoTracking().Where(s => s.RunId == run).OrderBy(s => s.TankId).ToListAsync();
    }
}
