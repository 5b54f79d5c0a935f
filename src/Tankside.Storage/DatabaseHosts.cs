using Npgsql;
using NpgsqlTypes;

namespace Tankside.Storage;

/// <summary>What one of several database hosts is.</summary>
public enum HostState
{
    Primary,
    Replica,

    /// <summary>It does not answer.</summary>
    Silent,
}

/// <param name="Position">How far its log has come, in bytes since the cluster was made: of the primary what is written, of a replica what it has carried out.</param>
/// <param name="Trouble">Why it does not answer; null when it does.</param>
public sealed record DatabaseHost(string Name, HostState State, ulong Position, string? Trouble);

/// <summary>Asks each of several database hosts by itself what it is and how far it has come.</summary>
public static class DatabaseHosts
{
    private const string Question =
        "SELECT pg_is_in_recovery(), CASE WHEN pg_is_in_recovery() THEN pg_last_wal_replay_lsn() ELSE pg_current_wal_flush_lsn() END";

    /// <summary>In the order of the connection string.</summary>
    public static Task<DatabaseHost[]> AskAsync(DatabaseChoice database, CancellationToken cancel) =>
        Task.WhenAll(new NpgsqlConnectionStringBuilder(database.ConnectionString).Host!.Split(',').Select(host => AskAsync(database, host, cancel)));

    private static async Task<DatabaseHost> AskAsync(DatabaseChoice database, string host, CancellationToken cancel)
    {
        try
        {
            var words = new NpgsqlConnectionStringBuilder(database.ConnectionString) { Host = host, TargetSessionAttributes = null, Pooling = false };
            await using var connection = new NpgsqlConnection(words.ConnectionString);
            await connection.OpenAsync(cancel);
            await using var command = new NpgsqlCommand(Question, connection);
            await using var row = await command.ExecuteReaderAsync(cancel);
            await row.ReadAsync(cancel);

            // A replica that has carried out nothing yet has no position.
            var position = row.IsDBNull(1) ? 0 : (ulong)row.GetFieldValue<NpgsqlLogSequenceNumber>(1);
            return new DatabaseHost(host, row.GetBoolean(0) ? HostState.Replica : HostState.Primary, position, null);
        }
        catch (NpgsqlException e)
        {
            return new DatabaseHost(host, HostState.Silent, 0, e.GetBaseException().Message.ReplaceLineEndings(" "));
        }
    }
}
