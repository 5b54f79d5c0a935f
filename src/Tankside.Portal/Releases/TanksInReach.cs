using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>The tanks that exist for a person: a teacher's own school's, everybody else's whole programme's.</summary>
public static class TanksInReach
{
    public static IQueryable<Tank> Of(HatcheryDb db, CurrentUser user) => user.Is(Role.Teacher)
        ? from tank in db.Tanks
          join room in db.Classrooms on tank.ClassroomId equals room.Id
          where tank.ProgrammeId == user.ProgrammeId && room.SchoolId == user.SchoolId
          select tank
        : db.Tanks.Where(t => t.ProgrammeId == user.ProgrammeId);
}
