using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Load.Clock;
using Tankside.Load.Drill;
using Tankside.Portal.Tests;
using Tankside.Process.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>A programme as of today with loggers, classes and people who go on whatever happens, and the portals that they go to.</summary>
public sealed class TrafficPlace : IDisposable
{
    private readonly CancellationTokenSource enough = new();
    private readonly List<Task> traffic = [];
    private readonly List<Node> nodes = [];
    private readonly DatabaseChoice database, asked;
    private readonly ClockHands? hands;
    private readonly IReadOnlyDictionary<string, string> settings;

    private TrafficPlace(DatabaseChoice database, DatabaseChoice asked, ClockHands? hands, IReadOnlyDictionary<string, string> settings) =>
        (this.database, this.asked, this.hands, this.settings) = (database, asked, hands, settings);

    public LoadTanks Tanks { get; } = new(50);

    public Answers Answers { get; } = new();

    /// <summary>Where to look what stands.</summary>
    public DatabaseChoice Database => database;

    /// <param name="database">Empty; it is looked into directly.</param>
    /// <param name="asked">The same as the portals reach it.</param>
    /// <param name="hands">The clock that everybody goes by; null for the real one.</param>
    /// <param name="settings">More for the portals.</param>
    public static async Task<TrafficPlace> SeedAsync(
        DatabaseChoice database, DatabaseChoice? asked = null, ClockHands? hands = null, IReadOnlyDictionary<string, string>? settings = null)
    {
        var place = new TrafficPlace(database, asked ?? database, hands, settings ?? new Dictionary<string, string>());
        await place.Tanks.SeedTodayAsync(database, hands?.Now);
        return place;
    }

    /// <summary>Starts a portal, and people who go to it.</summary>
    /// <param name="metrics">Where it tells how it is; null where nobody asks.</param>
    /// <param name="pace">Busy where null.</param>
    public async Task<int> ServeAsync(int loggers, int classes, int people, Uri? metrics = null, Pace? pace = null)
    {
        var installation = Installation.On(asked);
        installation.Settings["Serilog__MinimumLevel__Default"] = "Warning";
        foreach (var (key, value) in LoadPlace.Unlimited.Concat(settings))
        {
            installation.Settings[key.Replace(":", "__", StringComparison.Ordinal)] = value;
        }

        if (metrics is not null)
        {
            installation.Settings["Tankside__Metrics__Listen"] = metrics.Authority;
        }

        hands?.Drive(installation);
        var node = new Node(installation, Loopback.FreePort());
        nodes.Add(node);
        node.Portal = await installation.ServeAsync(node.Port);
        if (people > 0)
        {
            // The first sign-in makes the quick hash of the tests a slow one, which ends other sessions of the same person.
            using var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = node.Portal.Client.BaseAddress };
            await client.SignInAsync(Tanks.Programme.EmailOf(Role.Coordinator), TestWorld.Password);
        }

        traffic.Add(new Traffic(node.Portal.Client.BaseAddress!, "", Tanks, Answers, hands?.Clock ?? TimeProvider.System, pace ?? Pace.Busy, enough.Token).RunAsync(loggers, classes, people));
        return nodes.Count - 1;
    }

    public ServedPortal PortalOf(int node) => nodes[node].Portal ?? throw new InvalidOperationException("This portal is down.");

    public async Task KillAsync(int node)
    {
        await PortalOf(node).KillAsync();
        nodes[node].Portal!.Dispose();
        nodes[node].Portal = null;
    }

    public async Task StartAgainAsync(int node) => nodes[node].Portal = await nodes[node].Installation.ServeAsync(nodes[node].Port);

    /// <summary>By a fresh connection: those from before a restart are dead.</summary>
    public HatcheryDb OpenDb()
    {
        Npgsql.NpgsqlConnection.ClearAllPools();
        return TestDatabase.Open(database);
    }

    /// <summary>Everybody finishes what they began.</summary>
    public async Task EndAsync()
    {
        await enough.CancelAsync();
        await Task.WhenAll(traffic);
    }

    /// <summary>Compares what was told with what is there, in a line of the table.</summary>
    public async Task CountAsync(Tally tally)
    {
        await using var db = OpenDb();
        var times = (await db.Readings.Select(r => r.SenderId).ToListAsync()).CountBy(id => id).ToDictionary();
        tally.StoredMany(Answers.Accepted.Count);
        tally.LostMany(Answers.Accepted.Count(id => !times.ContainsKey(id)));
        tally.DoubledMany(times.Count(t => t.Value > 1));
        tally.Waited(Answers.LongestWait);
        foreach (var (words, count) in Answers.Refusals)
        {
            tally.Refused(words, count);
        }

        if (times.Keys.Except(Answers.Begun).Any())
        {
            tally.Wrong("readings are there that nobody sent");
        }
    }

    public void Dispose()
    {
        enough.Dispose();
        foreach (var node in nodes)
        {
            node.Portal?.Dispose();
            node.Installation.Dispose();
        }
    }

    private sealed class Node(Installation installation, int port)
    {
        public Installation Installation { get; } = installation;

        public int Port { get; } = port;

        public ServedPortal? Portal { get; set; }
    }
}
