using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>What a programme says in its own words, where no tank brings it along.</summary>
public static class ProgrammeTexts
{
    public static async Task<OwnTexts> OwnTextsOfAsync(this HatcheryDb db, Guid programmeId, CancellationToken cancel) =>
        new(await db.OwnTexts.AsNoTracking().Where(t => t.ProgrammeId == programmeId).ToListAsync(cancel));
}
