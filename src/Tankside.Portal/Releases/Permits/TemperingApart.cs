using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

/// <summary>As far as tank and stream may be apart when fish are let go, °C, as the programme has set it.</summary>
public static class TemperingApart
{
    public static async Task<double> OfAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel) =>
        await db.Settings.Where(s => s.ProgrammeId == programmeId && s.Key == TemperingSettings.Apart.Key)
            .Select(s => (double?)s.Value).SingleOrDefaultAsync(cancel) ?? TemperingSettings.Apart.Default;
}
