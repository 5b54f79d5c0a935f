using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;

namespace Tankside.Storage;

/// <summary>Where long reading goes.</summary>
public enum ReadFrom
{
    /// <summary>To the primary, as everything.</summary>
    Primary,

    /// <summary>To a replica that has all that the primary had when it was asked.</summary>
    Replica,
}

/// <summary>
/// For reading that is long and writes nothing. Where the installation says so it goes to a replica, but never to an older state: the primary is
/// asked how far it is, and the replica is taken once it has come as far. So whoever has just saved something finds it. When the replica does not
/// come so far in time, or there is none, the primary is read.
/// </summary>
public sealed class Replica(IDbContextFactory<HatcheryDb> primary, DatabaseChoice database, ReadFrom from, TimeProvider time)
{
    /// <summary>How long a replica is waited for.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(25);

    private readonly PooledDbContextFactory<HatcheryDb>? replicas = from == ReadFrom.Replica && database.IsOnSeveral() ? new(OptionsOf(database)) : null;

    /// <summary>A context to read from; dispose it.</summary>
    public async Task<HatcheryDb> OpenAsync(CancellationToken cancel)
    {
        var db = await primary.CreateDbContextAsync(cancel);
        if (replicas is null || await CaughtUpAsync(db, cancel) is not { } copy)
        {
            return db;
        }

        await db.DisposeAsync();
        return copy;
    }

    private async Task<HatcheryDb?> CaughtUpAsync(HatcheryDb db, CancellationToken cancel)
    {
        var copy = await replicas!.CreateDbContextAsync(cancel);
        try
        {
            var far = await db.Database.SqlQuery<string>($"SELECT pg_current_wal_flush_lsn()::text AS \"Value\"").SingleAsync(cancel);

            // Opened here it stays with one replica until it is disposed of.
            await copy.Database.OpenConnectionAsync(cancel);
            var from = time.GetTimestamp();
            while (!await IsAsFarAsync(copy, far, cancel))
            {
                if (time.GetElapsedTime(from) >= Patience)
                {
                    await copy.DisposeAsync();
                    return null;
                }

                await Task.Delay(Look, time, cancel);
            }

            return copy;
        }
        catch (Exception e)
        {
            await copy.DisposeAsync();
            if (e is DbException or InvalidOperationException)
            {
                return null;
            }

            throw;
        }
    }

    /// <summary>Where no replica answers the driver gives the primary, which has everything.</summary>
    private static Task<bool> IsAsFarAsync(HatcheryDb copy, string far, CancellationToken cancel) => copy.Database
        .SqlQuery<bool>($"SELECT CASE WHEN pg_is_in_recovery() THEN pg_last_wal_replay_lsn() >= {far}::pg_lsn ELSE true END AS \"Value\"")
        .SingleAsync(cancel);

    private static DbContextOptions<HatcheryDb> OptionsOf(DatabaseChoice database)
    {
        var builder = new DbContextOptionsBuilder<HatcheryDb>();
        Databases.Use(builder, database with { ConnectionString = SeveralHosts.Replica(database.ConnectionString) });
        return builder.Options;
    }
}
