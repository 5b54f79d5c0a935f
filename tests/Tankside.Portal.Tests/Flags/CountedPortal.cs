using Microsoft.Extensions.DependencyInjection;
using Tankside.Portal.Demo;
using Tankside.Portal.Demo.Simulated;
using Tankside.Portal.Tests.Access;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A portal with a made-up season of some size, whose lead is signed in.</summary>
internal sealed class CountedPortal(PortalHost host, HttpClient lead, CommandListener listener) : IAsyncDisposable
{
    public static async Task<CountedPortal> CreateAsync(DatabaseKind kind, int tanks)
    {
        var listener = new CommandListener();
        var host = await PortalHost.CreateAsync(kind);
        await host.CallAsync<IServiceProvider, SimulatedReport>(services => ActivatorUtilities.CreateInstance<SimulatedSeason>(services)
            .WriteAsync(new SimulatedSize(tanks, 45, 5, null), TestWorld.Now, (_, _) => { }, CancellationToken.None));
        await host.SweepAsync();
        var lead = host.Anonymous();
        await lead.SignInAsync("lead@alder-basin.example", AlderBasin.Password);
        return new CountedPortal(host, lead, listener);
    }

    public async Task<int> CommandsAsync(string address) => (await ListAsync(address)).Count;

    /// <summary>What a page asks; nothing of one that does not open.</summary>
    public async Task<List<string>> ListAsync(string address)
    {
        listener.HearOnly(host.Database.ConnectionString);
        using var answer = await lead.GetAsync(address);
        await answer.Content.ReadAsStringAsync();
        return answer.IsSuccessStatusCode ? [.. listener.Commands] : [];
    }

    /// <summary>From now on PostgreSQL tells how it answers each question, and reads through a table only where no index serves.</summary>
    public Task ExplainAsync() => PlanTelling.StartAsync(host, onlyByIndex: true);

    /// <summary>How the questions of a page were answered.</summary>
    public async Task<List<string>> PlansAsync(string address)
    {
        listener.HearOnly(host.Database.ConnectionString);
        using var answer = await lead.GetAsync(address);
        await answer.Content.ReadAsStringAsync();
        return [.. listener.Plans];
    }

    /// <summary>Every page that the lead may open and that needs no name but that of a tank.</summary>
    public static List<string> Addresses() =>
    [
        .. AddressTable.Rows.Where(r => r.Method == "GET" && r.Expected(Caller.ProgrammeLead) == 'y')
            .Select(r => r.Address.Replace("{tank}", "S00003", StringComparison.Ordinal)).Where(a => !a.Contains('{', StringComparison.Ordinal)).Distinct(),
    ];

    public async ValueTask DisposeAsync()
    {
        lead.Dispose();
        listener.Dispose();
        await host.DisposeAsync();
    }
}
