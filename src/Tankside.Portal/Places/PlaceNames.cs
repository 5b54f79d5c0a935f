using Microsoft.EntityFrameworkCore;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Places;

/// <summary>Names of schools and tanks for the people's pages.</summary>
public sealed class PlaceNames(IDbContextFactory<HatcheryDb> databases) : IPlaceNames
{
    public async Task<IReadOnlyList<SchoolChoice>> SchoolsAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Schools.Where(s => s.ProgrammeId == programmeId)
            .OrderBy(s => s.Name).Select(s => new SchoolChoice(s.Id, s.Name)).ToListAsync(cancel);
    }

    public async Task<IReadOnlyList<TankChoice>> TanksAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await (
            from tank in db.Tanks
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where tank.ProgrammeId == programmeId
            orderby school.Name, tank.Code
            select new TankChoice(tank.Id, tank.Code, school.Name)).ToListAsync(cancel);
    }

    public async Task<IReadOnlyList<string>> RoomsBackedUpByAsync(Guid personId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return [.. (await ForgetsInRooms.RoomsOfAsync(db, personId, cancel)).Select(r => $"{r.Name}: {r.BackupName}, {r.BackupPhone}")];
    }

    public async Task<IReadOnlyDictionary<Guid, string>> TankCodesAsync(
        Guid programmeId, IReadOnlyCollection<Guid> tankIds, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Tanks.Where(t => t.ProgrammeId == programmeId && tankIds.Contains(t.Id)).ToDictionaryAsync(t => t.Id, t => t.Code, cancel);
    }
}
