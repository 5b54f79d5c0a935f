using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Tests.Flags;

/// <summary>Looks at the flags as they are stored.</summary>
internal static class StoredFlags
{
    /// <summary>The flags of a kind, in the order they were opened.</summary>
    public static async Task<List<Flag>> FlagsAsync(this PortalHost host, FlagKind kind)
    {
        await using var db = host.OpenDb();
        return await db.Flags.AsNoTracking().Where(f => f.Kind == kind).OrderBy(f => f.OpenedAt).ToListAsync();
    }

    /// <summary>What was done to a flag, in order.</summary>
    public static async Task<List<FlagDeed>> DeedsAsync(this PortalHost host, Flag flag)
    {
        await using var db = host.OpenDb();
        return await db.FlagEvents.Where(e => e.FlagId == flag.Id).OrderBy(e => e.Id).Select(e => e.Deed).ToListAsync();
    }

    /// <summary>Changes the only flag of a kind, as a person does.</summary>
    public static async Task ChangeFlagAsync(this PortalHost host, FlagKind kind, Action<Flag> change)
    {
        await using var db = host.OpenDb();
        change(await db.Flags.SingleAsync(f => f.Kind == kind));
        await db.SaveChangesAsync();
    }
}
