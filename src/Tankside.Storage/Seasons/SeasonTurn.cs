using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Tankside.Storage.Seasons;

/// <summary>
/// A transaction in which a season's account is either added to or closed. Many may add at the same time; whoever closes it waits for them
/// and keeps the next ones waiting, so that what they then read is the account as it was closed.
/// </summary>
public static class SeasonTurn
{
    /// <summary>To add a line: the season's row can be shared, and not be closed meanwhile.</summary>
    public static Task<IDbContextTransaction> ShareAsync(HatcheryDb db, Guid seasonId, CancellationToken cancel) =>
        BeginAsync(db, "SELECT 1 FROM seasons WHERE id = {0} FOR KEY SHARE", seasonId, cancel);

    /// <summary>To close: alone. A row that points to the season takes the shared lock by itself, so that a class's losses wait too.</summary>
    public static Task<IDbContextTransaction> AloneAsync(HatcheryDb db, Guid seasonId, CancellationToken cancel) =>
        BeginAsync(db, "SELECT 1 FROM seasons WHERE id = {0} FOR UPDATE", seasonId, cancel);

    private static async Task<IDbContextTransaction> BeginAsync(HatcheryDb db, string sql, Guid seasonId, CancellationToken cancel)
    {
        // SQLite has one writer, and a transaction is one from its beginning.
        var turn = await db.Database.BeginTransactionAsync(cancel);
        if (db.Database.IsNpgsql())
        {
            await db.Database.ExecuteSqlRawAsync(sql, [seasonId], cancel);
        }

        return turn;
    }
}
