using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Sealing;

/// <summary>Whether a season is closed, and what to tell who comes too late.</summary>
public static class Seals
{
    /// <summary>The one trouble of a line for a sealed season.</summary>
    public const string Closed =
        "The account of this season is sealed, so nothing was entered. The programme lead can open it again on the season’s page and say why; then send this once more.";

    /// <summary>Null while the season is open.</summary>
    public static Task<SeasonSeal?> InForceAsync(HatcheryDb db, Guid seasonId, CancellationToken cancel) =>
        db.SeasonSeals.AsNoTracking().SingleOrDefaultAsync(s => s.SeasonId == seasonId && s.ReopenedAt == null, cancel);

    public static Task<bool> IsClosedAsync(HatcheryDb db, Guid seasonId, CancellationToken cancel) =>
        db.SeasonSeals.AnyAsync(s => s.SeasonId == seasonId && s.ReopenedAt == null, cancel);
}
