using System.Globalization;
using Microsoft.AspNetCore.Identity;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Science.Eggs;
using Tankside.Science.Heat;
using Tankside.Storage.People;

namespace Tankside.Portal.Demo.Simulated;

/// <summary>How large a made-up season is.</summary>
/// <param name="Tanks">Tanks, from one up.</param>
/// <param name="Days">Days from the first delivery to the last reading.</param>
/// <param name="Seed">The same seed on the same day gives the same rows.</param>
/// <param name="LoggerMinutes">Minutes between the readings of each tank's logger; null where only classes read.</param>
public sealed record SimulatedSize(int Tanks, int Days, int Seed, int? LoggerMinutes);

/// <summary>A tank of a made-up programme with what its season needs.</summary>
public sealed record SimulatedRoom(int Number, Tank Tank, EggLot Lot, string Run, DateOnly DeliveredOn, int Eggs);

/// <summary>The places, lots, permits and people of a made-up programme of any size: schools of two rooms, lots of a hundred tanks, runs of eight.</summary>
public sealed class SimulatedProgramme
{
    public const string Name = "Alder Basin at large";

    private const int RoomsOfASchool = 2, TanksOfALot = 100, TanksOfARun = 8, SchoolsOfAnArea = 40;

    /// <summary>Eggs lie at the hatchery for so long before the first delivery, at <see cref="HatcheryC"/>: they come eyed.</summary>
    private const int DaysAtHatchery = 22;

    private const double HatcheryC = 10;

    private readonly DemoDice dice;

    public SimulatedProgramme(SimulatedSize size, DateTime now)
    {
        dice = new DemoDice(size.Seed);
        Size = size;
        Clock = ProgrammeClock.Of(AlderBasin.TimeZone);
        Now = now;
        LastDay = Clock.Day(now).AddDays(-1);
        FirstDay = LastDay.AddDays(1 - size.Days);
        Programme = new Programme { Id = dice.Id(), Name = Name, TimeZone = AlderBasin.TimeZone };
        Season = new Season
        {
            Id = dice.Id(),
            ProgrammeId = Programme.Id,
            Name = string.Create(CultureInfo.InvariantCulture, $"{FirstDay.Year}-{(FirstDay.Year + 1) % 100:00}"),
            StartsOn = FirstDay.AddDays(-30),
            EndsOn = LastDay.AddDays(60),
        };
        Calendar = new SchoolCalendar(Clock, new TimeOnly(8, 0), new TimeOnly(15, 15), []);
        Site = new ReleaseSite { Id = dice.Id(), ProgrammeId = Programme.Id, Name = AlderBasin.Sites[0].Name, Water = AlderBasin.Sites[0].Water };
        Permit = new Permit
        {
            Id = dice.Id(),
            ProgrammeId = Programme.Id,
            Number = "AB-SIM-01",
            Species = Species.RainbowTrout,
            Water = Site.Water,
            Fish = size.Tanks * 220,
            From = Season.StartsOn,
            To = Season.EndsOn,
        };
        Build();
    }

    public SimulatedSize Size { get; }

    public ProgrammeClock Clock { get; }

    public Programme Programme { get; }

    public Season Season { get; }

    public SchoolCalendar Calendar { get; }

    public ReleaseSite Site { get; }

    public Permit Permit { get; }

    /// <summary>The first and the last local day with readings.</summary>
    public DateOnly FirstDay { get; }

    public DateOnly LastDay { get; }

    /// <summary>When it is written, UTC: what the judge looks back on is told from there, as for any other season.</summary>
    public DateTime Now { get; }

    public List<SimulatedRoom> Rooms { get; } = [];

    /// <summary>Everything but what comes day by day.</summary>
    public List<object> Rows { get; } = [];

    private void Build()
    {
        Rows.AddRange([Programme, Season, Site, Permit]);
        AddPeople();
        School? school = null;
        EggLot? lot = null;
        for (var i = 0; i < Size.Tanks; i++)
        {
            if (i % RoomsOfASchool == 0)
            {
                Rows.Add(school = NewSchool(i / RoomsOfASchool));
            }

            if (i % TanksOfALot == 0)
            {
                Rows.Add(lot = NewLot(i / TanksOfALot));
            }

            AddRoom(i, school!, lot!);
        }
    }

    private School NewSchool(int index)
    {
        var area = string.Create(CultureInfo.InvariantCulture, $"{AlderBasin.Areas[index / SchoolsOfAnArea % AlderBasin.Areas.Length]} {1 + (index / SchoolsOfAnArea / AlderBasin.Areas.Length)}");
        return new School
        {
            Id = dice.Id(),
            ProgrammeId = Programme.Id,
            Name = string.Create(CultureInfo.InvariantCulture, $"{AlderBasin.Schools[index % AlderBasin.Schools.Length]} {1 + (index / AlderBasin.Schools.Length)}"),
            Area = area,
            Disinfectant = AlderBasin.DisinfectantOf(index),
            ElevationM = 1200 + (index * 13 % 700),
            DistanceKm = 3 + (index * 7 % 61),
            WaterSupply = $"{area} main",
        };
    }

    private EggLot NewLot(int index)
    {
        var fertilised = FirstDay.AddDays((index % 5) - DaysAtHatchery);
        return new EggLot
        {
            Id = dice.Id(),
            ProgrammeId = Programme.Id,
            SeasonId = Season.Id,
            Code = string.Create(CultureInfo.InvariantCulture, $"S{index + 1:000}"),
            Species = Species.RainbowTrout,
            Source = "Alder Basin State Hatchery (invented)",
            FertilisedFrom = fertilised,
            FertilisedTo = fertilised,
            HatcheryMeanC = HatcheryC,
        };
    }

    private void AddRoom(int index, School school, EggLot lot)
    {
        var number = index + 1;
        var classroom = new Classroom
        {
            Id = dice.Id(),
            SchoolId = school.Id,
            Name = string.Create(CultureInfo.InvariantCulture, $"Room {1 + (index % RoomsOfASchool)}"),
            NewTeacher = number % 6 == 0,
        };
        var tank = new Tank
        {
            Id = dice.Id(),
            ProgrammeId = Programme.Id,
            ClassroomId = classroom.Id,
            Code = string.Create(CultureInfo.InvariantCulture, $"S{number:00000}"),
            Litres = number % 4 == 0 ? 110 : 208,
            Jacket = number % 3 == 0 ? Jacket.Foam : Jacket.None,
            SetPointC = 10.5,
            RoomC = 20 + (number % 3),
            UsualUnit = number % 3 == 0 ? TemperatureUnit.C : TemperatureUnit.F,
            ChillerBatch = string.Create(CultureInfo.InvariantCulture, $"Fenwick {2018 + (number % 5)}"),
        };
        var run = index / TanksOfARun;
        var delivered = FirstDay.AddDays(Math.Min(run % 5, Size.Days - 1));
        Rows.AddRange(
        [
            classroom, tank,
            new RoomCode { Id = dice.Id(), TankId = tank.Id, Code = dice.RoomCode(), IssuedAt = Clock.Utc(Season.StartsOn, new TimeOnly(9, 0)) },
        ]);
        Rooms.Add(new SimulatedRoom(number, tank, lot, string.Create(CultureInfo.InvariantCulture, $"R{run + 1}"), delivered, dice.Between(180, 220)));
    }

    /// <summary>One of each role that looks over the whole programme, as in the demo and let in only where that is.</summary>
    private void AddPeople()
    {
        var hasher = new PasswordHasher<Person>();
        foreach (var (mail, role) in ((string, Role)[])[("lead", Role.ProgrammeLead), ("coordinator", Role.Coordinator), ("agency", Role.AgencyContact)])
        {
            var address = mail + "@alder-basin.example";
            var person = new Person
            {
                Id = dice.Id(),
                Name = $"Simulated {mail}",
                UserName = address,
                NormalizedUserName = address.ToUpperInvariant(),
                Email = address,
                NormalizedEmail = address.ToUpperInvariant(),
                EmailConfirmed = true,
                IsDemo = true,
                LockoutEnabled = true,
                SecurityStamp = dice.Id().ToString("N"),
                ConcurrencyStamp = dice.Id().ToString("N"),
            };
            person.PasswordHash = hasher.HashPassword(person, AlderBasin.Password);
            Rows.AddRange([person, new Membership { Id = dice.Id(), PersonId = person.Id, ProgrammeId = Programme.Id, Role = role }]);
        }
    }
}
