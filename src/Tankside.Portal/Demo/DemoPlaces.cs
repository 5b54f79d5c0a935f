using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Portal.Demo;

/// <summary>A demo tank with what its season needs.</summary>
public sealed record DemoTank(int Number, Tank Tank, School School, DemoLot Plan, EggLot Lot, DateOnly DeliveredOn)
{
    /// <summary>Its eggs come on the next school day, and its water is still warm.</summary>
    public bool Awaits => Number == 36;
}

/// <summary>The demo programme's places, lots and dates.</summary>
public sealed record DemoBasin(
    Programme Programme, Season Season, IReadOnlyList<School> Schools, IReadOnlyList<DemoTank> Tanks, SchoolCalendar Calendar,
    IReadOnlyList<ReleaseSite> Sites, Permit ChinookPermit, IReadOnlyList<object> Rows);

/// <summary>Builds programme, season, schools, rooms, tanks, lots, allotments, sites and permits.</summary>
public static class DemoPlaces
{
    /// <summary>The one-room school of tank 35.</summary>
    private const int ShutSchool = 17;

    private static readonly double[] GallonSizes = [55, 55, 29, 55, 20, 55, 29, 55, 10, 55, 40, 55];

    public static DemoBasin Build(DemoDice dice, DateOnly today)
    {
        var programme = new Programme { Id = dice.Id(), Name = AlderBasin.Name, TimeZone = AlderBasin.TimeZone };
        var starts = today.AddDays(-140);
        var season = new Season
        {
            Id = dice.Id(),
            ProgrammeId = programme.Id,
            Name = $"{starts.Year}-{(starts.Year + 1) % 100:00}",
            StartsOn = starts,
            EndsOn = today.AddDays(150),
        };
        var rows = new List<object> { programme, season };
        var closures = Closures(programme, today, dice);
        rows.AddRange(closures);
        var calendar = new SchoolCalendar(
            ProgrammeClock.Of(programme.TimeZone), new TimeOnly(8, 0), new TimeOnly(15, 15), [.. closures.Select(c => (c.FirstDay, c.LastDay))]);

        var schools = AlderBasin.Schools.Select((name, i) => SchoolOf(programme, name, i, dice)).ToList();
        rows.AddRange(schools);
        rows.Add(ShutForItself(programme, schools[ShutSchool], today, dice));
        var lots = AlderBasin.Lots.Select(plan => LotOf(programme, season, plan, today, dice)).ToList();
        rows.AddRange(lots);
        var tanks = TanksOf(programme, season, schools, lots, calendar, today, dice, rows);
        var sites = AlderBasin.Sites.Select(s => new ReleaseSite { Id = dice.Id(), ProgrammeId = programme.Id, Name = s.Name, Water = s.Water }).ToList();
        rows.AddRange(sites);
        rows.AddRange(DemoKit.Build(programme.Id, schools, tanks, today, dice));
        var permits = Permits(programme, season, dice);
        rows.AddRange(permits);
        return new DemoBasin(programme, season, schools, tanks, calendar, sites, permits[1], rows);
    }

    /// <summary>A short break behind, a longer one ahead; never today, so that the demo always opens on an ordinary day.</summary>
    private static List<Closure> Closures(Programme programme, DateOnly today, DemoDice dice) =>
    [
        new() { Id = dice.Id(), ProgrammeId = programme.Id, FirstDay = today.AddDays(-34), LastDay = today.AddDays(-31), Reason = "Short break" },
        new() { Id = dice.Id(), ProgrammeId = programme.Id, FirstDay = today.AddDays(50), LastDay = today.AddDays(60), Reason = "Long break" },
    ];

    /// <summary>One school shuts just when its fish will have to learn to eat.</summary>
    private static Closure ShutForItself(Programme programme, School school, DateOnly today, DemoDice dice) => new()
    {
        Id = dice.Id(),
        ProgrammeId = programme.Id,
        SchoolId = school.Id,
        FirstDay = today.AddDays(27),
        LastDay = today.AddDays(33),
        Reason = "New boiler",
    };

    private static School SchoolOf(Programme programme, string name, int index, DemoDice dice) => new()
    {
        Id = dice.Id(),
        ProgrammeId = programme.Id,
        Name = name,
        Area = AlderBasin.Areas[index % AlderBasin.Areas.Length],
        Disinfectant = AlderBasin.DisinfectantOf(index),
        ElevationM = 1450 + (index * 13),
        DistanceKm = 3 + (index * 7 % 61),
        WaterSupply = $"{AlderBasin.Areas[index % AlderBasin.Areas.Length]} main",
        // An invented valley laid over empty hills: four arms, one an area.
        Latitude = Math.Round(43.6 + ((index % 4) * 0.11) + (index * 0.013), 4),
        Longitude = Math.Round(-113.9 + ((index * 7 % 31) * 0.018), 4),
    };

    private static EggLot LotOf(Programme programme, Season season, DemoLot plan, DateOnly today, DemoDice dice) => new()
    {
        Id = dice.Id(),
        ProgrammeId = programme.Id,
        SeasonId = season.Id,
        Code = plan.Code,
        Species = plan.Species,
        Strain = plan.Strain,
        Ploidy = "diploid",
        Source = "Alder Basin State Hatchery (invented)",
        FertilisedFrom = today.AddDays(-plan.FertilisedDaysAgo),
        FertilisedTo = today.AddDays(-plan.FertilisedDaysAgo + plan.SpawnDays - 1),
        HatcheryMeanC = plan.HatcheryC,
    };

    private static List<DemoTank> TanksOf(
        Programme programme, Season season, List<School> schools, List<EggLot> lots, SchoolCalendar calendar, DateOnly today, DemoDice dice, List<object> rows)
    {
        var tanks = new List<DemoTank>();
        foreach (var (index, school) in schools.Index())
        {
            for (var room = 0; room < (index < AlderBasin.SchoolsWithTwoRooms ? 2 : 1); room++)
            {
                var number = tanks.Count + 1;
                var plan = AlderBasin.Lots.Single(l => l.FirstTank <= number && number <= l.LastTank);
                var classroom = new Classroom { Id = dice.Id(), SchoolId = school.Id, Name = $"Room {(room * 4) + 3 + (index % 9)}", NewTeacher = number % 6 == 0 };
                var tank = TankOf(programme, classroom, number, plan);
                var lot = lots[Array.IndexOf(AlderBasin.Lots, plan)];
                var delivered = SchoolDayAtOrBefore(calendar, today.AddDays(-plan.DeliveredDaysAgo));
                tanks.Add(new DemoTank(number, tank, school, plan, lot, delivered));
                rows.AddRange(
                [
                    classroom, tank,
                    new RoomCode { Id = dice.Id(), TankId = tank.Id, Code = dice.RoomCode(), IssuedAt = calendar.Clock.Utc(season.StartsOn, new TimeOnly(9, 0)) },
                    new Allotment { Id = dice.Id(), SeasonId = season.Id, TankId = tank.Id, LotId = lot.Id, Eggs = plan.Eggs, DeliveryOn = number == 36 ? calendar.SchoolDays(today, today.AddDays(30)).First() : delivered },
                ]);
            }
        }

        return tanks;

        Tank TankOf(Programme p, Classroom room, int number, DemoLot plan) => new()
        {
            Id = dice.Id(),
            ProgrammeId = p.Id,
            ClassroomId = room.Id,
            Code = $"A{number:000}",
            Litres = Math.Round(GallonSizes[number % GallonSizes.Length] * Litres.PerUsGallon),
            Jacket = number % 3 == 0 ? Jacket.Foam : Jacket.None,
            SetPointC = number == 45 ? 5 : plan.SetPointC,
            RoomC = 20 + (number % 3),
            UsualUnit = number % 7 == 0 ? TemperatureUnit.C : TemperatureUnit.F,
            ChillerBatch = number % 4 == 0 ? "Fenwick 2019-B" : "Fenwick 2022-A",
        };
    }

    private static DateOnly SchoolDayAtOrBefore(SchoolCalendar calendar, DateOnly day)
    {
        while (!calendar.IsSchoolDay(day))
        {
            day = day.AddDays(-1);
        }

        return day;
    }

    private static List<Permit> Permits(Programme programme, Season season, DemoDice dice) =>
    [
        new()
        {
            Id = dice.Id(), ProgrammeId = programme.Id, Number = "AB-RBT-01", Species = Science.Eggs.Species.RainbowTrout, Water = "Cattail Pond",
            Fish = 9000, From = season.StartsOn, To = season.EndsOn,
        },
        new()
        {
            Id = dice.Id(), ProgrammeId = programme.Id, Number = "AB-CHK-02", Species = Science.Eggs.Species.ChinookSalmon, Water = "Alder River",
            Fish = 2000, From = season.StartsOn, To = season.EndsOn,
        },
    ];
}
