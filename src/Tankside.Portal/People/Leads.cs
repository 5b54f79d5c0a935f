using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>A programme never loses its last lead.</summary>
internal static class Leads
{
    /// <summary>
    /// True when <paramref name="leaving"/> may stop being a lead. The programme's row is saved with it, so that two leads who remove each
    /// other at once meet there: whoever saves second is told.
    /// </summary>
    public static async Task<bool> CanSpareAsync(HatcheryDb db, Membership leaving, CancellationToken cancel)
    {
        if (leaving.Role != Role.ProgrammeLead)
        {
            return true;
        }

        var programme = await db.Programmes.SingleAsync(p => p.Id == leaving.ProgrammeId, cancel);
        db.Entry(programme).Property(p => p.Name).IsModified = true;
        return await db.Memberships.AnyAsync(
            m => m.ProgrammeId == leaving.ProgrammeId && m.Role == Role.ProgrammeLead && m.Id != leaving.Id, cancel);
    }
}
