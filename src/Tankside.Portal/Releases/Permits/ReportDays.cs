using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

/// <summary>Days after a release by which its report is due, as the programme has set it.</summary>
public static class ReportDays
{
    public static async Task<int> OfAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel) =>
        (int)(await db.Settings.Where(s => s.ProgrammeId == programmeId && s.Key == ReleaseRules.ReportWithinSetting)
            .Select(s => (double?)s.Value).SingleOrDefaultAsync(cancel) ?? ReleaseRules.ReportWithinDays);
}
