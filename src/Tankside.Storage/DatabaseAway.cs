using System.Data.Common;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Tankside.Storage;

/// <summary>
/// The database could not be reached, went away in the middle, is held by somebody else or has no room left: nobody's mistake, and over in a
/// while. What was being saved is then not confirmed; it may have arrived nevertheless.
/// </summary>
public static class DatabaseAway
{
    /// <summary>SQLite's own numbers: busy, locked, read or write failed, full, cannot be opened.</summary>
    private const int Busy = 5, Locked = 6, InputOutput = 10, Full = 13, CannotOpen = 14;

    /// <summary>True when this was the cause, however many layers wrapped it.</summary>
    public static bool Is(Exception? error) => CauseOf(error) switch
    {
        PostgresException told => IsCause(told),
        // The driver's own exceptions tell of the connection.
        NpgsqlException => true,
        SqliteException file => file.SqliteErrorCode is Busy or Locked or InputOutput or Full or CannotOpen,
        _ => false,
    };

    /// <summary>True when the cause was that nothing more fits on its disk.</summary>
    public static bool IsFull(Exception? error) => CauseOf(error) switch
    {
        PostgresException told => told.SqlState == PostgresErrorCodes.DiskFull,
        SqliteException file => file.SqliteErrorCode == Full,
        _ => false,
    };

    private static DbException? CauseOf(Exception? error)
    {
        while (error is not (null or NpgsqlException or SqliteException))
        {
            error = error.InnerException;
        }

        return error as DbException;
    }

    /// <summary>
    /// Of the server's exceptions those of one that stops, starts, has no connection or no room left, or is a replica, which takes no write; and all
    /// with which it ends or refuses a connection, whatever it calls them: no statement of ours does that.
    /// </summary>
    private static bool IsCause(PostgresException told) => told.InvariantSeverity is "FATAL" or "PANIC" || told.SqlState switch
    {
        PostgresErrorCodes.AdminShutdown or PostgresErrorCodes.CrashShutdown or PostgresErrorCodes.CannotConnectNow => true,
        PostgresErrorCodes.TooManyConnections or PostgresErrorCodes.ReadOnlySqlTransaction => true,
        PostgresErrorCodes.DiskFull or PostgresErrorCodes.OutOfMemory or PostgresErrorCodes.IoError => true,
        var state => state.StartsWith("08", StringComparison.Ordinal),
    };
}
