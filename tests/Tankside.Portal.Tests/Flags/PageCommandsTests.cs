using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Portal.Demo;
using Tankside.Portal.Demo.Simulated;
using Tankside.Portal.Tests.Access;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A page asks the database as often for three times as many tanks: never once for each row.</summary>
public class PageCommandsTests
{
    /// <summary>Commands that a larger programme may cost more, for something that the smaller one happens not to have.</summary>
    private const int ByChance = 4;

    private const int Few = 8, Many = 28;

    /// <summary>What the two pages of the morning may ask, once the programme's own ways are known.</summary>
    private const int Most = 12;

    [Theory, BothDatabases]
    public async Task No_page_asks_the_database_once_for_each_tank(DatabaseKind kind)
    {
        await using var few = await Counted.CreateAsync(kind, Few);
        await using var many = await Counted.CreateAsync(kind, Many);
        var wrong = new List<string>();
        var seen = 0;
        foreach (var address in Addresses())
        {
            var (small, large) = (await few.CommandsAsync(address), await many.CommandsAsync(address));
            seen += small > 0 ? 1 : 0;
            if (large > small + ByChance)
            {
                wrong.Add($"{address}: {small} commands for {Few} tanks, {large} for {Many}");
            }
        }

        foreach (var address in new[] { "/round", "/tanks/S00003" })
        {
            var asked = await many.ListAsync(address);
            if (asked.Count is 0 or > Most)
            {
                wrong.Add($"{address}: {asked.Count} commands{string.Concat(asked.Select(c => "\n  " + string.Join(' ', c.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))))}");
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.True(seen > 40, $"Only {seen} pages asked anything.");
    }

    /// <summary>Every page that the lead may open and that needs no name but that of a tank.</summary>
    private static List<string> Addresses() =>
    [
        .. AddressTable.Rows.Where(r => r.Method == "GET" && r.Expected(Caller.ProgrammeLead) == 'y')
            .Select(r => r.Address.Replace("{tank}", "S00003", StringComparison.Ordinal)).Where(a => !a.Contains('{', StringComparison.Ordinal)).Distinct(),
    ];

    /// <summary>A portal with a made-up season of some size, whose lead is signed in.</summary>
    private sealed class Counted(PortalHost host, HttpClient lead) : IAsyncDisposable
    {
        public static async Task<Counted> CreateAsync(DatabaseKind kind, int tanks)
        {
            var host = await PortalHost.CreateAsync(kind);
            await host.CallAsync<IServiceProvider, SimulatedReport>(services => ActivatorUtilities.CreateInstance<SimulatedSeason>(services)
                .WriteAsync(new SimulatedSize(tanks, 45, 5, null), TestWorld.Now, (_, _) => { }, CancellationToken.None));
            await host.SweepAsync();
            var lead = host.Anonymous();
            await lead.SignInAsync("lead@alder-basin.example", AlderBasin.Password);
            return new Counted(host, lead);
        }

        public async Task<int> CommandsAsync(string address) => (await ListAsync(address)).Count;

        /// <summary>What a page asks; nothing of one that does not open.</summary>
        public async Task<List<string>> ListAsync(string address)
        {
            using var listener = new Listener(host.Database.ConnectionString);
            using var answer = await lead.GetAsync(address);
            await answer.Content.ReadAsStringAsync();
            return answer.IsSuccessStatusCode ? [.. listener.Commands] : [];
        }

        public async ValueTask DisposeAsync()
        {
            lead.Dispose();
            await host.DisposeAsync();
        }
    }

    /// <summary>Hears every command that goes to one database.</summary>
    private sealed class Listener : IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>, IDisposable
    {
        private readonly string connection;
        private readonly IDisposable all;
        private IDisposable? ours;

        public Listener(string connection)
        {
            this.connection = connection;
            all = DiagnosticListener.AllListeners.Subscribe(this);
        }

        public ConcurrentQueue<string> Commands { get; } = new();

        public void OnNext(DiagnosticListener value)
        {
            if (value.Name == "Microsoft.EntityFrameworkCore")
            {
                ours = value.Subscribe(this);
            }
        }

        public void OnNext(KeyValuePair<string, object?> value)
        {
            if (value.Key == RelationalEventId.CommandExecuted.Name && value.Value is CommandExecutedEventData { Command: var command, Context.Database: var database }
                && database.GetConnectionString() == connection)
            {
                Commands.Enqueue(command.CommandText);
            }
        }

        public void OnCompleted()
        {
        }

        public void OnError(Exception error)
        {
        }

        public void Dispose()
        {
            ours?.Dispose();
            all.Dispose();
        }
    }
}
