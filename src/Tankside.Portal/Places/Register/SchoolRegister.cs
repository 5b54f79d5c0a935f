using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Places.Register;

/// <summary>A school in the list.</summary>
public sealed record RegisteredSchool(School School, int Rooms, int Tanks);

/// <summary>A room with its tanks.</summary>
public sealed record RegisteredRoom(Classroom Room, IReadOnlyList<Tank> Tanks);

/// <param name="All">How many there are, found or not.</param>
/// <param name="TakenOut">What can still be put back, newest first.</param>
public sealed record SchoolList(IReadOnlyList<RegisteredSchool> Found, int All, int Tanks, IReadOnlyList<string> Areas, IReadOnlyList<TakenOutPlace> TakenOut);

public sealed record SchoolCard(School School, IReadOnlyList<RegisteredRoom> Rooms, IReadOnlyList<Closure> Closures, TemperatureUnit Unit);

/// <summary>The schools of a programme, for their pages.</summary>
public sealed class SchoolRegister(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<SchoolList> ListAsync(CurrentUser user, string? search, string? area, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var schools = await db.Schools.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).OrderBy(s => s.Name).ToListAsync(cancel);
        var rooms = (await RoomsAsync(db, user, null, cancel)).ToLookup(r => r.Room.SchoolId);
        var found = schools.Where(s => string.IsNullOrEmpty(area) || s.Area == area).Where(s => Fits(s, rooms[s.Id], search?.Trim() ?? ""))
            .Select(s => new RegisteredSchool(s, rooms[s.Id].Count(), rooms[s.Id].Sum(r => r.Tanks.Count(t => t.ClosedAt is null)))).ToList();
        var since = time.GetUtcNow().UtcDateTime - TakenOutPlace.Kept;
        var takenOut = await db.TakenOutPlaces.AsNoTracking().Where(p => p.ProgrammeId == user.ProgrammeId && p.TakenAt > since)
            .OrderByDescending(p => p.TakenAt).Take(20).ToListAsync(cancel);
        return new SchoolList(
            found, schools.Count, rooms.SelectMany(r => r).Sum(r => r.Tanks.Count(t => t.ClosedAt is null)),
            [.. schools.Select(s => s.Area).Distinct().Order(StringComparer.OrdinalIgnoreCase)], takenOut);
    }

    /// <summary>Null for a school that is not there for the asker.</summary>
    public async Task<SchoolCard?> FindAsync(CurrentUser user, Guid schoolId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Schools.AsNoTracking().SingleOrDefaultAsync(s => s.Id == schoolId && s.ProgrammeId == user.ProgrammeId, cancel) is not { } school)
        {
            return null;
        }

        var closures = await db.Closures.AsNoTracking().Where(c => c.SchoolId == schoolId).OrderBy(c => c.FirstDay).ToListAsync(cancel);
        return new SchoolCard(school, await RoomsAsync(db, user, schoolId, cancel), closures, await UnitAsync(db, user, cancel));
    }

    private static Task<TemperatureUnit> UnitAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) =>
        db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.ScreenUnit).SingleAsync(cancel);

    private static async Task<List<RegisteredRoom>> RoomsAsync(HatcheryDb db, CurrentUser user, Guid? schoolId, CancellationToken cancel)
    {
        var rooms = await (
            from room in db.Classrooms.AsNoTracking()
            join school in db.Schools on room.SchoolId equals school.Id
            where school.ProgrammeId == user.ProgrammeId && (schoolId == null || school.Id == schoolId)
            orderby room.Name
            select room).ToListAsync(cancel);
        var tanks = (await db.Tanks.AsNoTracking()
            .Where(t => t.ProgrammeId == user.ProgrammeId && (schoolId == null || db.Classrooms.Any(r => r.Id == t.ClassroomId && r.SchoolId == schoolId)))
            .OrderBy(t => t.Code).ToListAsync(cancel)).ToLookup(t => t.ClassroomId);
        return [.. rooms.Select(r => new RegisteredRoom(r, [.. tanks[r.Id]]))];
    }

    private static bool Fits(School school, IEnumerable<RegisteredRoom> rooms, string search)
    {
        return Has(school.Name) || Has(school.Area) || Has(school.WaterSupply) || rooms.Any(r => Has(r.Room.Name) || r.Tanks.Any(t => Has(t.Code)));

        bool Has(string? text) => search.Length == 0 || text?.Contains(search, StringComparison.OrdinalIgnoreCase) == true;
    }
}
