using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Places;

/// <summary>The tanks that exist for somebody. What is not among them is not found.</summary>
public static class VisibleTanks
{
    public static IQueryable<Tank> TanksOf(this HatcheryDb db, CurrentUser user)
    {
        var own = db.Tanks.AsNoTracking().Where(t => t.ProgrammeId == user.ProgrammeId);
        return user.Role switch
        {
            Role.Coordinator or Role.ProgrammeLead or Role.KitHand => own,
            Role.Teacher => own.Where(t => db.Classrooms.Any(r => r.Id == t.ClassroomId && r.SchoolId == user.SchoolId)),
            // The agency gets sums, never a tank.
            Role.AgencyContact => own.Where(_ => false),
        };
    }

    public static IQueryable<Tank> TanksOf(this HatcheryDb db, ApiKey key)
    {
        var own = db.Tanks.AsNoTracking().Where(t => t.ProgrammeId == key.ProgrammeId);
        return key.AllTanks ? own : own.Where(t => key.TankIds.Contains(t.Id));
    }
}
