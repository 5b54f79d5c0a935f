using Microsoft.EntityFrameworkCore;
using Tankside.Storage;

namespace Tankside.Portal.Releases.StepByStep;

/// <summary>The places of a programme as the first steps count them.</summary>
/// <param name="WithoutTank">Schools without an open tank.</param>
internal sealed record StepPlaces(int Schools, int Rooms, int WithoutTank, IReadOnlyList<Guid> Tanks, IReadOnlySet<Guid> SchoolsWithTank)
{
    public static async Task<StepPlaces> LoadAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel)
    {
        var schools = await db.Schools.Where(s => s.ProgrammeId == programmeId).Select(s => s.Id).ToListAsync(cancel);
        var rooms = await db.Classrooms.CountAsync(r => db.Schools.Any(s => s.Id == r.SchoolId && s.ProgrammeId == programmeId), cancel);
        var tanks = await (
            from tank in db.Tanks
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            where tank.ProgrammeId == programmeId && tank.ClosedAt == null
            select new { tank.Id, room.SchoolId }).ToListAsync(cancel);
        var with = tanks.Select(t => t.SchoolId).ToHashSet();
        return new StepPlaces(schools.Count, rooms, schools.Count(s => !with.Contains(s)), [.. tanks.Select(t => t.Id)], with);
    }
}
