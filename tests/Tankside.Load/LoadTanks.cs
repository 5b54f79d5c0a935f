using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>A programme of many tanks, as rows of a database that somebody else made.</summary>
public sealed class LoadTanks
{
    private const int TanksOfALot = 100;

    private readonly TestWorld world = new();
    private readonly List<EggLot> lots;

    public LoadTanks(int tanks)
    {
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

    /// <summary>The people and places around the tanks.</summary>
    public TestProgramme Programme => world.One;

    public IReadOnlyList<Tank> Tanks { get; }

    /// <summary>The label of each tank, in step with <see cref="Tanks"/>.</summary>
    public IReadOnlyList<RoomCode> Codes { get; }

    /// <summary>A logger's key for every tank.</summary>
    public string Key { get; } = Guid.NewGuid().ToString("n");

    /// <summary>
    /// Puts everything into an empty database, as of today: portals that run as processes go by the real clock, and the made-up world stands in a
    /// year of its own.
    /// </summary>
    /// <param name="asOf">Another day than that of the real clock, for portals that go by another.</param>
    public async Task SeedTodayAsync(DatabaseChoice database, DateTime? asOf = null)
    {
        await using var db = TestDatabase.Open(database);
        if ((await db.Database.GetPendingMigrationsAsync()).Any())
        {
            await using var steps = Databases.ToMigrate(database);
            await steps.Database.MigrateAsync();
        }

        AddTo(db);
        await db.SaveChangesAsync();
        var now = asOf ?? DateTime.UtcNow;
        var today = DateOnly.FromDateTime(now);
        var (delivered, spawned, starts, ends) = (now.AddDays(-19), today.AddDays(-45), today.AddDays(-90), today.AddDays(200));
        await db.Receipts.ExecuteUpdateAsync(r => r.SetProperty(x => x.At, delivered));
        await db.Ledger.ExecuteUpdateAsync(e => e.SetProperty(x => x.At, delivered).SetProperty(x => x.EnteredAt, delivered));
        await db.EggLots.ExecuteUpdateAsync(l => l.SetProperty(x => x.FertilisedFrom, spawned).SetProperty(x => x.FertilisedTo, spawned));
        await db.Seasons.ExecuteUpdateAsync(e => e.SetProperty(x => x.StartsOn, starts).SetProperty(x => x.EndsOn, ends));
    }

    public void AddTo(HatcheryDb db)
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
