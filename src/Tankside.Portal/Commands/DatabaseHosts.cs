using Npgsql;
using Tankside.Storage;

namespace Tankside.Portal.Commands;

/// <summary>Asks each of several database hosts by itself what it is.</summary>
internal static class DatabaseHosts
{
    /// <summary>Says what each is; throws when one does not answer, or when not exactly one is the primary.</summary>
    public static async Task<string> TellAsync(DatabaseChoice database, CancellationToken cancel)
    {
        var said = new List<string>();
        var (primaries, silent) = (0, 0);
        foreach (var host in new NpgsqlConnectionStringBuilder(database.ConnectionString).Host!.Split(','))
        {
            try
            {
                var isReplica = await IsReplicaAsync(database, host, cancel);
                primaries += isReplica ? 0 : 1;
                said.Add($"{host} is {(isReplica ? "a replica" : "the primary")}");
            }
            catch (NpgsqlException e)
            {
                silent++;
                said.Add($"{host} does not answer ({e.GetBaseException().Message.ReplaceLineEndings(" ")})");
            }
        }

        var all = string.Join("; ", said);
        return primaries == 1 && silent == 0 ? all
            : throw new InvalidOperationException(primaries > 1 ? $"{all}. Only one may be: stop the one that was replaced, at once" : all);
    }

    private static async Task<bool> IsReplicaAsync(DatabaseChoice database, string host, CancellationToken cancel)
    {
        var words = new NpgsqlConnectionStringBuilder(database.ConnectionString) { Host = host, TargetSessionAttributes = null, Pooling = false };
        await using var connection = new NpgsqlConnection(words.ConnectionString);
        await connection.OpenAsync(cancel);
        await using var command = new NpgsqlCommand("SELECT pg_is_in_recovery()", connection);
        return (bool)(await command.ExecuteScalarAsync(cancel))!;
    }
}
