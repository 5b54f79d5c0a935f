using Npgsql;

namespace Tankside.Storage;

/// <summary>
/// The database could not be reached, or went away in the middle: nobody's mistake, and over in a while. What was being saved is then not
/// confirmed; it may have arrived nevertheless.
/// </summary>
public static class DatabaseAway
{
    /// <summary>True when this was the cause, however many layers wrapped it.</summary>
    public static bool Is(Exception? error)
    {
        for (; error is not null; error = error.InnerException)
        {
            if (error is NpgsqlException one)
            {
                return IsCause(one);
            }
        }

        return false;
    }

    /// <summary>
    /// The driver's own exceptions tell of the connection; of the server's only those of one that stops, starts, has no connection left, or is a
    /// replica, which takes no write.
    /// </summary>
    private static bool IsCause(NpgsqlException error) => error is not PostgresException told || told.SqlState switch
    {
        PostgresErrorCodes.AdminShutdown or PostgresErrorCodes.CrashShutdown or PostgresErrorCodes.CannotConnectNow => true,
        PostgresErrorCodes.TooManyConnections or PostgresErrorCodes.ReadOnlySqlTransaction => true,
        var state => state.StartsWith("08", StringComparison.Ordinal),
    };
}
