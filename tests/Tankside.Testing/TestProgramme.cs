using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Science.Eggs;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Testing;

/// <summary>One programme of the <see cref="TestWorld"/>. Arrays run in step: tank 0 stands in room 0 of school 0.</summary>
public sealed class TestProgramme
{
    /// <summary>Delivery at nine in the morning, local time of the first programme.</summary>
    public static readonly DateTime DeliveredAt = new(2027, 1, 15, 16, 0, 0, DateTimeKind.Utc);

    public const int Eggs = 150, DeadOnArrival = 2;

    /// <summary>One hash for everyone: making it is slow on purpose, and all share one password.</summary>
    private static readonly Lazy<string> PasswordHash = new(() =>
        new PasswordHasher<Person>(Options.Create(new PasswordHasherOptions { IterationCount = TestWorld.PasswordRounds })).HashPassword(new Person { Name = "" }, TestWorld.Password));

    public TestProgramme(string name, string timeZone, char letter)
    {
        Letter = letter;
        Programme = new Programme { Id = Guid.NewGuid(), Name = name, TimeZone = timeZone };
        Season = new Season
        {
            Id = Guid.NewGuid(),
            ProgrammeId = Programme.Id,
            Name = "2026-27",
            StartsOn = new DateOnly(2026, 9, 1),
            EndsOn = new DateOnly(2027, 7, 31),
        };
        Schools = [NewSchool("Birch Lane School", "north", 1500), NewSchool("Mill Pond School", "south", 300)];
        Rooms = [.. Schools.Select((s, i) => new Classroom { Id = Guid.NewGuid(), SchoolId = s.Id, Name = $"Room {i + 1}", NewTeacher = i == 1 })];
        Tanks = [.. Rooms.Select((r, i) => NewTank(r, i + 1))];
        RoomCodes = [.. Tanks.Select(t => new RoomCode
        {
            Id = Guid.NewGuid(),
            TankId = t.Id,
            Code = Hatchery.Places.RoomCodes.Make(RandomNumberGenerator.GetInt32),
            IssuedAt = DeliveredAt,
        })];
        Lot = NewLot();
        Site = new ReleaseSite { Id = Guid.NewGuid(), ProgrammeId = Programme.Id, Name = "Footbridge", Water = "Reed Creek" };
        Permit = NewPermit();
        People = Enum.GetValues<Role>().ToDictionary(r => r, NewPerson);
    }

    /// <summary>The letter that its tank codes begin with.</summary>
    public char Letter { get; }

    public Programme Programme { get; }

    public Season Season { get; }

    public School[] Schools { get; }

    public Classroom[] Rooms { get; }

    /// <summary>Two tanks, A001 and A002 (or B001 and B002), 208 litres, bare, set to 10.5 °C.</summary>
    public Tank[] Tanks { get; }

    public RoomCode[] RoomCodes { get; }

    /// <summary>Rainbow trout of 20 December at 9 °C.</summary>
    public EggLot Lot { get; }

    public ReleaseSite Site { get; }

    public Permit Permit { get; }

    /// <summary>Someone in every role; the teacher teaches at school 0. All have <see cref="TestWorld.Password"/>.</summary>
    public IReadOnlyDictionary<Role, Person> People { get; }

    /// <summary>A logger's key for tank 0 alone.</summary>
    public string LoggerKey { get; } = Guid.NewGuid().ToString("n");

    /// <summary>A coordinator's key for every tank.</summary>
    public string CoordinatorKey { get; } = Guid.NewGuid().ToString("n");

    public string EmailOf(Role role) => People[role].Email!;

    public void AddTo(HatcheryDb db)
    {
        db.AddRange(Programme, Season, Lot, Site, Permit);
        db.AddRange(Schools);
        db.AddRange(Rooms);
        db.AddRange(Tanks);
        db.AddRange(RoomCodes);
        db.AddRange(People.Values);
        db.AddRange(People.Select(p => new Membership
        {
            Id = Guid.NewGuid(),
            PersonId = p.Value.Id,
            ProgrammeId = Programme.Id,
            Role = p.Key,
            SchoolId = p.Key == Role.Teacher ? Schools[0].Id : null,
        }));
        db.AddRange(NewKey(ApiKeyRole.Logger, LoggerKey, Tanks[0].Id), NewKey(ApiKeyRole.Coordinator, CoordinatorKey));
        foreach (var tank in Tanks)
        {
            AddDelivery(db, tank);
        }
    }

    private void AddDelivery(HatcheryDb db, Tank tank)
    {
        db.Add(new Receipt
        {
            Id = Guid.NewGuid(),
            SeasonId = Season.Id,
            TankId = tank.Id,
            LotId = Lot.Id,
            At = DeliveredAt,
            Run = "R1",
            Eggs = Eggs,
            DeadOnArrival = DeadOnArrival,
            CountedBy = CountMethod.Photo,
        });
        db.AddRange(NewLine(tank, LedgerKind.Received, Eggs), NewLine(tank, LedgerKind.DeadOnArrival, DeadOnArrival));
    }

    private LedgerEntry NewLine(Tank tank, LedgerKind kind, int count) =>
        new() { SeasonId = Season.Id, TankId = tank.Id, Kind = kind, Count = count, At = DeliveredAt, EnteredAt = DeliveredAt };

    private School NewSchool(string name, string area, double elevation) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = Programme.Id,
        Name = name,
        Area = area,
        Disinfectant = Disinfectant.Chlorine,
        ElevationM = elevation,
        DistanceKm = 12,
    };

    private Tank NewTank(Classroom room, int number) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = Programme.Id,
        ClassroomId = room.Id,
        Code = $"{Letter}{number:000}",
        Litres = 208,
        SetPointC = 10.5,
        ChillerBatch = "C1",
    };

    private EggLot NewLot() => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = Programme.Id,
        SeasonId = Season.Id,
        Code = "L1",
        Species = Species.RainbowTrout,
        FertilisedFrom = new DateOnly(2026, 12, 20),
        FertilisedTo = new DateOnly(2026, 12, 20),
        HatcheryMeanC = 9,
    };

    private Permit NewPermit() => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = Programme.Id,
        Number = "P-1",
        Species = Species.RainbowTrout,
        Water = Site.Water,
        Fish = 200,
        From = new DateOnly(2027, 2, 1),
        To = new DateOnly(2027, 6, 30),
    };

    private Person NewPerson(Role role)
    {
        var email = $"{role.ToString().ToLowerInvariant()}-{char.ToLowerInvariant(Letter)}@example.test";
        return new Person
        {
            Id = Guid.NewGuid(),
            Name = $"{role} {Letter}",
            UserName = email,
            NormalizedUserName = email.ToUpperInvariant(),
            Email = email,
            NormalizedEmail = email.ToUpperInvariant(),
            EmailConfirmed = true,
            LockoutEnabled = true,
            SecurityStamp = Guid.NewGuid().ToString("n"),
            PasswordHash = PasswordHash.Value,
        };
    }

    private ApiKey NewKey(ApiKeyRole role, string key, params Guid[] tanks) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = Programme.Id,
        Role = role,
        SecretHash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(key))),
        AllTanks = tanks.Length == 0,
        TankIds = [.. tanks],
        IssuedAt = DeliveredAt,
    };
}
