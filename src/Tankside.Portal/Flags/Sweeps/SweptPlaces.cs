using Tankside.Hatchery.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>The schools and tanks under a mark.</summary>
public static class SweptPlaces
{
    extension(HatcheryDb db)
    {
        /// <summary>Schools in the marked area that have a tank; the others have nothing to answer.</summary>
        public IQueryable<School> SchoolsUnder(AreaSweep sweep) => db.Schools.Where(
            s => s.ProgrammeId == sweep.ProgrammeId && (sweep.Area == "" || s.Area == sweep.Area)
            && db.Tanks.Any(t => t.ClosedAt == null && db.Classrooms.Any(r => r.Id == t.ClassroomId && r.SchoolId == s.Id)));

        public IQueryable<Tank> OpenTanksOf(IQueryable<School> schools) =>
            from tank in db.Tanks
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            where tank.ClosedAt == null && schools.Any(s => s.Id == room.SchoolId)
            select tank;

        /// <summary>Has the tanks judged at once: a mark, its end and every answer change what is known of them.</summary>
        public void HaveJudged(IEnumerable<Guid> tankIds, DateTime now) =>
            db.UnjudgedFacts.AddRange(tankIds.Select(id => new UnjudgedFact { TankId = id, At = now }));
    }
}
