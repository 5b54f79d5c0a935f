using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Kit;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Kit;

/// <summary>A portal with a depot, a chiller CH-1 at tank A001 and a spare chiller SP-1 at the depot; and the acts, as the forms send them.</summary>
internal sealed class KitWorld : IAsyncDisposable
{
    private KitWorld(PortalHost host, TestWorld world) => (Host, World) = (host, world);

    public PortalHost Host { get; }

    public TestWorld World { get; }

    public KitDepot Depot { get; private set; } = null!;

    public CurrentUser Hand => new(World.One.People[Role.KitHand].Id, World.One.Programme.Id, Role.KitHand, null);

    public CurrentUser Coordinator => new(World.One.People[Role.Coordinator].Id, World.One.Programme.Id, Role.Coordinator, null);

    public static async Task<KitWorld> CreateAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var made = new KitWorld(host, world)
        {
            Depot = new KitDepot { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, Name = "Mill shed", Phone = "555-0139", Hours = "evenings", Latitude = 44.1, Longitude = -113 },
        };
        var lent = New(world, "CH-1", "2019-B");
        var spare = New(world, "SP-1", "2022-A");
        await host.SeedAsync(db =>
        {
            db.AddRange(made.Depot, lent, spare);
            db.Add(Told(lent, KitActKind.Registered, new KitSpot(KitPlace.Depot, made.Depot.Id), host.Now.AddDays(-70)));
            db.Add(Told(lent, KitActKind.Out, new KitSpot(KitPlace.Tank, world.One.Tanks[0].Id), host.Now.AddDays(-28)));
            db.Add(Told(spare, KitActKind.Registered, new KitSpot(KitPlace.Depot, made.Depot.Id), host.Now.AddDays(-70)));
        });
        return made;
    }

    public async Task<KitItem> ItemAsync(string serial)
    {
        await using var db = Host.OpenDb();
        return await db.KitItems.SingleAsync(k => k.Serial == serial && k.ProgrammeId == World.One.Programme.Id);
    }

    public async Task<List<KitAct>> ActsAsync(string serial)
    {
        await using var db = Host.OpenDb();
        return await db.KitActs.Where(a => db.KitItems.Any(k => k.Id == a.ItemId && k.Serial == serial)).OrderBy(a => a.Number).ToListAsync();
    }

    /// <summary>The form as the page fills it: what is not given is as the page shows it.</summary>
    public async Task<KitActForm> FormAsync(string serial, KitActKind kind, Action<KitActForm>? fill = null)
    {
        var form = Filled(new KitActForm { Kind = $"{kind}", Acts = (await ItemAsync(serial)).Acts });
        fill?.Invoke(form);
        return form;
    }

    public async Task<SwapForm> SwapAsync(string old, string fresh, Action<SwapForm>? fill = null)
    {
        var form = Filled(new SwapForm { Fresh = fresh, OldIs = SwapKit.Faulty, OldGoesTo = SwapKit.WithMe, Acts = (await ItemAsync(old)).Acts });
        fill?.Invoke(form);
        return form;
    }

    public async Task<(Notice? Notice, List<string> Refused)> DoAsync(string serial, KitActForm form, CurrentUser? by = null)
    {
        var refused = new List<string>();
        var notice = await Host.CallAsync<ActOnKit, Notice?>(a => a.HandleAsync(by ?? Hand, serial, form, (field, why) => refused.Add($"{field}: {why}"), CancellationToken.None));
        return (notice, refused);
    }

    public async Task<(Notice? Notice, List<string> Refused)> DoAsync(string serial, SwapForm form)
    {
        var refused = new List<string>();
        var notice = await Host.CallAsync<SwapKit, Notice?>(s => s.HandleAsync(Hand, serial, form, (field, why) => refused.Add($"{field}: {why}"), CancellationToken.None));
        return (notice, refused);
    }

    public async ValueTask DisposeAsync() => await Host.DisposeAsync();

    private TForm Filled<TForm>(TForm form)
        where TForm : KitActForm
    {
        var local = ProgrammeClock.Of(World.One.Programme.TimeZone).Local(Host.Now);
        form.Id = Guid.NewGuid();
        form.Day = local.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        form.Time = local.ToString("HH:mm", CultureInfo.InvariantCulture);
        return form;
    }

    private static KitAct Told(KitItem item, KitActKind kind, KitSpot to, DateTime at) => KitRules.Write(item, kind, to, Guid.NewGuid(), null, at, null);

    private static KitItem New(TestWorld world, string serial, string batch) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = world.One.Programme.Id,
        Kind = KitKind.Chiller,
        Serial = serial,
        Make = "quarter horse",
        Batch = batch,
    };
}
