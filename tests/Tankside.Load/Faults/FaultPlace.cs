using System.Net;
using System.Net.Http.Headers;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Demo;
using Tankside.Portal.Tests;
using Tankside.Process.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>The demo season served by a portal in a process of its own, with people signed in and what the doors need to know.</summary>
public sealed class FaultPlace : IDisposable
{
    /// <summary>The first of the demo season's tanks; one of the later ones still waits for its eggs and has no account.</summary>
    private const int TanksInUse = 35;

    private readonly int port = Loopback.FreePort();

    private FaultPlace(DatabaseChoice database, Installation installation)
    {
        (Database, Installation) = (database, installation);
        Address = new Uri($"http://127.0.0.1:{port}/");
        Nobody = NewClient();
        Coordinator = NewClient();
        Logger = NewClient();
    }

    /// <summary>Where to look what stands, past everything that is put between the portal and its database.</summary>
    public DatabaseChoice Database { get; }

    public Installation Installation { get; }

    public Uri Address { get; }

    public ServedPortal? Portal { get; private set; }

    public HttpClient Nobody { get; }

    public HttpClient Coordinator { get; }

    public HttpClient Logger { get; }

    /// <summary>Tanks with fish, each with the code of its label.</summary>
    public IReadOnlyList<(Guid Id, string Code, string Label)> Tanks { get; private set; } = [];

    public IReadOnlyList<string> Serials { get; private set; } = [];

    /// <summary>A site and a permit large enough for every release, and a driver's stop of a run to come.</summary>
    public FaultRows Rows { get; private set; } = null!;

    /// <summary>Serves a seeded database.</summary>
    /// <param name="asked">The database as the portal reaches it, where that is another way; else the same.</param>
    public static async Task<FaultPlace> ServeAsync(DatabaseChoice database, DatabaseChoice? asked = null, params IEnumerable<(string Key, string Value)> settings)
    {
        var installation = Installation.On(asked ?? database);
        installation.Settings["Serilog__MinimumLevel__Default"] = "Warning";
        foreach (var (key, value) in LoadPlace.Unlimited.Select(s => (s.Key, s.Value)).Concat(settings))
        {
            installation.Settings[key.Replace(":", "__", StringComparison.Ordinal)] = value;
        }

        var place = new FaultPlace(database, installation);
        place.Logger.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue(
            "Bearer", (await installation.RunAsync("key", "new", "--role", "logger", "--tanks", "all")).Good().Output.Trim());
        await place.KnowAsync();
        await place.StartAsync();
        await place.Coordinator.SignInAsync("coordinator@alder-basin.example", AlderBasin.Password);
        return place;
    }

    public async Task StartAsync() => Portal = await Installation.ServeAsync(port);

    public async Task KillAsync()
    {
        await Portal!.KillAsync();
        Portal.Dispose();
        Portal = null;
    }

    public HatcheryDb OpenDb() => TestDatabase.Open(Database);

    public void Dispose()
    {
        Nobody.Dispose();
        Coordinator.Dispose();
        Logger.Dispose();
        Portal?.Dispose();
        Installation.Dispose();
    }

    private async Task KnowAsync()
    {
        await using var db = OpenDb();
        Tanks = [.. (await (
            from code in db.RoomCodes
            join tank in db.Tanks on code.TankId equals tank.Id
            where code.RevokedAt == null
            orderby tank.Code
            select new { tank.Id, tank.Code, Label = code.Code }).Take(TanksInUse).ToListAsync()).Select(t => (t.Id, t.Code, t.Label))];
        Serials = await db.KitItems.Where(k => k.Condition != KitCondition.Retired).OrderBy(k => k.Serial).Select(k => k.Serial).ToListAsync();
        Rows = await FaultRows.AddAsync(db, Tanks[0].Id);
    }

    private HttpClient NewClient() => new(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() })
    {
        BaseAddress = Address,
        Timeout = TimeSpan.FromSeconds(120),
    };
}
