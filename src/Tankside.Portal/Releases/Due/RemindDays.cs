using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Due;

/// <summary>Days before a report is due on which its reminder goes out, as the programme has set it.</summary>
public sealed class RemindDays(IDbContextFactory<HatcheryDb> databases)
{
    public async Task<int> OfAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await OfAsync(db, programmeId, cancel);
    }

    public static async Task<int> OfAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel) =>
        (int)(await db.Settings.Where(s => s.ProgrammeId == programmeId && s.Key == PermitRules.RemindSetting)
            .Select(s => (double?)s.Value).SingleOrDefaultAsync(cancel) ?? PermitRules.RemindDays);
}
