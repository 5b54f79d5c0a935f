using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>
/// A portal with many tanks, and a twin of its database for the bare side: the same rows, the same tables with all their indexes.
/// </summary>
public sealed class LoadPlace : IAsyncDisposable
{
    private const int TanksOfALot = 100;

    /// <summary>How much may be sent a minute is not what is measured.</summary>
    private static readonly Dictionary<string, string> Unlimited = new() { ["Tankside:ApiCallsAMinute"] = "1000000", ["Tankside:Api:RequestsPerMinute"] = "1000000" };

    private readonly TestWorld world = new();
    private readonly List<EggLot> lots;

    private LoadPlace(PortalHost portal, TestDatabase twin, int tanks)
    {
        Portal = portal;
        Twin = twin;
        Tanks = [.. Enumerable.Range(1, tanks).Select(NewTank)];
        lots = [world.One.Lot, .. Enumerable.Range(2, (tanks - 1) / TanksOfALot).Select(NewLot)];
        Codes = [.. Tanks.Select(t => new RoomCode
        {
            Id = Guid.NewGuid(),
            TankId = t.Id,
            Code = RoomCodes.Make(RandomNumberGenerator.GetInt32),
            IssuedAt = TestProgramme.DeliveredAt,
        })];
    }

    public PortalHost Portal { get; }

    public Guid ProgrammeId => world.One.Programme.Id;

    /// <summary>The people and places around the tanks.</summary>
    public TestProgramme Programme => world.One;

    public TestDatabase Twin { get; }

    public IReadOnlyList<Tank> Tanks { get; }

    /// <summary>The label of each tank, in step with <see cref="Tanks"/>.</summary>
    public IReadOnlyList<RoomCode> Codes { get; }

    /// <summary>A logger's key for every tank.</summary>
    public string Key { get; } = Guid.NewGuid().ToString("n");

    /// <param name="environment">In Production a cookie goes over TLS only, and nobody signs in over loopback.</param>
    public static async Task<LoadPlace> CreateAsync(DatabaseKind kind, int tanks, bool judgeWorks = false, string environment = "Production")
    {
        var place = new LoadPlace(await PortalHost.CreateAsync(kind, new PortalHostSettings { Environment = environment, JudgeWorks = judgeWorks, Keys = Unlimited }), await TestDatabase.CreateAsync(kind), tanks);
        await place.Portal.SeedAsync(place.AddTo);
        await using var db = place.Twin.CreateDbContext();
        place.AddTo(db);
        await db.SaveChangesAsync();
        return place;
    }

    public async ValueTask DisposeAsync()
    {
        await Portal.DisposeAsync();
        await Twin.DisposeAsync();
    }

    private void AddTo(HatcheryDb db)
    {
        world.AddTo(db);
        db.AddRange(Tanks);
        db.AddRange(Codes);
        db.AddRange(lots.Skip(1));
        db.AddRange(Tanks.Select((t, i) => NewReceipt(t, lots[i / TanksOfALot])));
        db.AddRange(Tanks.Select(t => new LedgerEntry
        {
            SeasonId = world.One.Season.Id,
            TankId = t.Id,
            Kind = LedgerKind.Received,
            Count = TestProgramme.Eggs,
            At = TestProgramme.DeliveredAt,
            EnteredAt = TestProgramme.DeliveredAt,
        }));
        db.Add(new ApiKey
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            Role = ApiKeyRole.Logger,
            SecretHash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Key))),
            AllTanks = true,
            IssuedAt = TestProgramme.DeliveredAt,
        });
    }

    private Tank NewTank(int number) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = world.One.Programme.Id,
        ClassroomId = world.One.Rooms[0].Id,
        Code = string.Create(CultureInfo.InvariantCulture, $"L{number:0000}"),
        Litres = 208,
        SetPointC = 10.5,
        UsualUnit = TemperatureUnit.C,
    };

    private EggLot NewLot(int number) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = world.One.Programme.Id,
        SeasonId = world.One.Season.Id,
        Code = string.Create(CultureInfo.InvariantCulture, $"L{number}"),
        Species = world.One.Lot.Species,
        FertilisedFrom = world.One.Lot.FertilisedFrom,
        FertilisedTo = world.One.Lot.FertilisedTo,
        HatcheryMeanC = world.One.Lot.HatcheryMeanC,
    };

    private Receipt NewReceipt(Tank tank, EggLot lot) => new()
    {
        Id = Guid.NewGuid(),
        SeasonId = world.One.Season.Id,
        TankId = tank.Id,
        LotId = lot.Id,
        At = TestProgramme.DeliveredAt,
        Run = "R1",
        Eggs = TestProgramme.Eggs,
        DeadOnArrival = 0,
        CountedBy = CountMethod.Photo,
    };
}
