using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>A tank as kit is lent to it.</summary>
public sealed record TankOfKit(Tank Tank, string Room, School School)
{
    /// <summary>"A007, Heron Ford Elementary, Room 3".</summary>
    public string Words => $"{Tank.Code}, {School.Name}, {Room}";

    public KitTank ForKit => new(Tank.Id, Tank.Litres);
}

/// <summary>What the ids in a history mean, and what there is to choose from: tanks, depots, people who carry kit.</summary>
public sealed class KitNames
{
    private KitNames(Programme programme, List<TankOfKit> tanks, IReadOnlyList<ListedDepot> depots, List<(Guid Id, string Name)> carriers, Dictionary<Guid, string> people)
    {
        Programme = programme;
        Tanks = tanks.ToDictionary(t => t.Tank.Id);
        Depots = depots.ToDictionary(d => d.Depot.Id);
        Carriers = carriers;
        People = people;
    }

    public Programme Programme { get; }

    public ProgrammeClock Clock => ProgrammeClock.Of(Programme.TimeZone);

    public IReadOnlyDictionary<Guid, TankOfKit> Tanks { get; }

    public IReadOnlyDictionary<Guid, ListedDepot> Depots { get; }

    /// <summary>Those who may take kit along: coordinators, kit hands, leads.</summary>
    public IReadOnlyList<(Guid Id, string Name)> Carriers { get; }

    private Dictionary<Guid, string> People { get; }

    public static async Task<KitNames> LoadAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel)
    {
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var tanks = await (
            from tank in db.Tanks.AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where tank.ProgrammeId == programmeId
            orderby tank.Code
            select new TankOfKit(tank, room.Name, school)).ToListAsync(cancel);
        var people = await (
            from membership in db.Memberships
            join person in db.Users on membership.PersonId equals person.Id
            where membership.ProgrammeId == programmeId
            orderby person.Name
            select new { person.Id, person.Name, membership.Role }).ToListAsync(cancel);
        return new KitNames(
            programme, tanks, await Kit.Depots.LoadAsync(db, programmeId, cancel),
            [.. people.Where(p => p.Role is Role.Coordinator or Role.KitHand or Role.ProgrammeLead).Select(p => (p.Id, p.Name))],
            people.ToDictionary(p => p.Id, p => p.Name));
    }

    /// <summary>Empty for somebody who has left.</summary>
    public string Person(Guid? id) => id is { } known && People.TryGetValue(known, out var name) ? name : "";

    /// <summary>"A007, Heron Ford Elementary, Room 3", "stock room", "on the road with Sam".</summary>
    public string Of(KitSpot spot, Say? reader = null) => (reader ?? Say.InEnglish) is var say ? spot.Place switch
    {
        KitPlace.Tank => spot.Id is { } id && Tanks.TryGetValue(id, out var tank) ? tank.Words : say["a tank"],
        KitPlace.Depot => spot.Id is { } id && Depots.TryGetValue(id, out var depot) ? depot.Depot.Name : say["a depot"],
        KitPlace.Person => Person(spot.Id) is { Length: > 0 } name ? say.Of("on the road with {0}", name) : say["on the road"],
        KitPlace.Unknown or KitPlace.Repair or KitPlace.Retired => say[KitWords.Of(spot.Place)],
    } : "";

    public string When(DateTime utc, Say? say = null) =>
        Clock.Local(utc).ToString("d MMM yyyy, HH:mm", say is { IsSpanish: true } ? say.Culture : System.Globalization.CultureInfo.InvariantCulture);
}
