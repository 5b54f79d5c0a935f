using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

/// <summary>A permit with what was released under it; releases that were withdrawn do not count.</summary>
public sealed record PermitUse(Permit Permit, int Released)
{
    public int Left => Permit.Fish - Released;

    public static async Task<IReadOnlyList<PermitUse>> LoadAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel)
    {
        var permits = await db.Permits.AsNoTracking().Where(p => p.ProgrammeId == programmeId).OrderBy(p => p.Number).ToListAsync(cancel);
        var ids = permits.Select(p => p.Id).ToList();
        var used = await db.Releases.Where(r => ids.Contains(r.PermitId) && r.WithdrawnAt == null)
            .GroupBy(r => r.PermitId).Select(g => new { g.Key, Fish = g.Sum(r => r.Fish) }).ToDictionaryAsync(g => g.Key, g => g.Fish, cancel);
        return [.. permits.Select(p => new PermitUse(p, used.GetValueOrDefault(p.Id)))];
    }

    public static Task<int> OfAsync(HatcheryDb db, Guid permitId, CancellationToken cancel) =>
        db.Releases.Where(r => r.PermitId == permitId && r.WithdrawnAt == null).SumAsync(r => r.Fish, cancel);
}
