using Microsoft.EntityFrameworkCore;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>
/// Which tanks this process may fold and judge until its transaction ends. On PostgreSQL their rows are locked, by the lock that lets
/// readings come in meanwhile; SQLite has one writer at a time.
/// </summary>
internal static class JudgeClaim
{
    /// <param name="wait">False to leave those that somebody else has to them.</param>
    public static async Task<List<Guid>> TakeAsync(HatcheryDb db, Guid[] tankIds, bool wait, CancellationToken cancel) => !db.Database.IsNpgsql()
        ? [.. tankIds]
        : wait
            ? await db.Database.SqlQuery<Guid>($"SELECT id AS \"Value\" FROM tanks WHERE id = ANY({tankIds}) ORDER BY id FOR NO KEY UPDATE").ToListAsync(cancel)
            : await db.Database.SqlQuery<Guid>($"SELECT id AS \"Value\" FROM tanks WHERE id = ANY({tankIds}) ORDER BY id FOR NO KEY UPDATE SKIP LOCKED")
                .ToListAsync(cancel);
}
