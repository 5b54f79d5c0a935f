using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Tankside.Portal.Demo;
using Tankside.Portal.Demo.Simulated;
using Tankside.Portal.Tests.Access;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A portal with a made-up season of some size, whose lead is signed in.</summary>
internal sealed class CountedPortal(PortalHost host, HttpClient lead) : IAsyncDisposable
{
    public static async Task<CountedPortal> CreateAsync(DatabaseKind kind, int tanks)
    {
        var host = await PortalHost.CreateAsync(kind);
        await host.CallAsync<IServiceProvider, SimulatedReport>(services => ActivatorUtilities.CreateInstance<SimulatedSeason>(services)
            .WriteAsync(new SimulatedSize(tanks, 45, 5, null), TestWorld.Now, (_, _) => { }, CancellationToken.None));
        await host.SweepAsync();
        var lead = host.Anonymous();
        await lead.SignInAsync("lead@alder-basin.example", AlderBasin.Password);
        return new CountedPortal(host, lead);
    }

    public async Task<int> CommandsAsync(string address) => (await ListAsync(address)).Count;

    /// <summary>What a page asks; nothing of one that does not open.</summary>
    public async Task<List<string>> ListAsync(string address)
    {
        using var listener = new CommandListener(host.Database.ConnectionString);
        using var answer = await lead.GetAsync(address);
        await answer.Content.ReadAsStringAsync();
        return answer.IsSuccessStatusCode ? [.. listener.Commands] : [];
    }

    /// <summary>From now on PostgreSQL tells how it answers each question, and reads through a table only where no index serves.</summary>
    public async Task ExplainAsync()
    {
        await using var db = host.OpenDb();
        var name = new NpgsqlConnectionStringBuilder(host.Database.ConnectionString).Database!;
        foreach (var (setting, value) in new[]
        {
            ("session_preload_libraries", "auto_explain"), ("auto_explain.log_min_duration", "0"), ("auto_explain.log_level", "notice"), ("enable_seqscan", "off"), ("jit", "off"),
        })
        {
            // The name of a throw-away database and words of our own: nothing that anybody typed.
#pragma warning disable EF1002
            await db.Database.ExecuteSqlRawAsync($"ALTER DATABASE \"{name}\" SET {setting} = {value}");
#pragma warning restore EF1002
        }

        NpgsqlConnection.ClearAllPools();
    }

    /// <summary>How the questions of a page were answered.</summary>
    public async Task<List<string>> PlansAsync(string address)
    {
        using var listener = new CommandListener(host.Database.ConnectionString);
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
        await host.DisposeAsync();
    }
}
