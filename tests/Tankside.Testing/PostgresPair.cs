using Npgsql;
using Tankside.Storage;

namespace Tankside.Testing;

/// <summary>
/// A primary and its replica, each a server of its own, made and promoted by the scripts in deploy/postgresql. The primary answers when the
/// replica has it too.
/// </summary>
public sealed class PostgresPair : IDisposable
{
    private const string Name = "tankside_replica";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly List<ThrowAwayCluster> servers;
    private ThrowAwayCluster primary, replica;

    private PostgresPair()
    {
        primary = ThrowAwayCluster.Start(Binaries, Settings);
        replica = NewReplica();
        servers = [primary, replica];
    }

    public static string? WhyUnavailable => PostgresServer.Binaries is null
        ? "No PostgreSQL server programs found for a primary and a replica. Install them (Debian: apt-get install postgresql)."
        : null;

    private static string Binaries => PostgresServer.Binaries ?? throw new InvalidOperationException(WhyUnavailable);

    /// <summary>The settings that are shipped, on the command line.</summary>
    private static string Settings { get; } = string.Join(' ', File.ReadLines(Shipped("both.conf"))
        .Where(line => line.Length > 0 && line[0] != '#').Select(line => $"-c {line.Replace(" ", "", StringComparison.Ordinal)}"));

    /// <summary>Both servers, the first of them the primary; what is accepted from now on both have.</summary>
    public static async Task<PostgresPair> StartAsync()
    {
        var pair = new PostgresPair();
        await pair.TogetherAsync();
        return pair;
    }

    /// <summary>Names both hosts and nothing else that several hosts need.</summary>
    public DatabaseChoice ChoiceOf(string database) => new(
        DatabaseKind.PostgreSQL, $"Host={string.Join(',', servers.Select(s => $"127.0.0.1:{s.Port}"))};Username=postgres;Database={database};Include Error Detail=true");

    /// <summary>The primary alone, whichever it is now.</summary>
    public DatabaseChoice PrimaryOf(string database) => Of(primary, database);

    /// <summary>The replica alone.</summary>
    public DatabaseChoice ReplicaOf(string database) => Of(replica, database);

    /// <summary>Makes an empty database.</summary>
    public Task CreateAsync(string database) => RunAsync(primary, $"CREATE DATABASE \"{database}\"");

    public void KillPrimary() => primary.Kill();

    /// <summary>The replica becomes the primary.</summary>
    public void Promote()
    {
        replica.RunScript(Shipped("promote.sh"), replica.Data);
        (primary, replica) = (replica, primary);
    }

    /// <summary>Stops taking over what the primary writes, or goes on with it. Then the primary waits for nobody.</summary>
    public async Task HoldReplicaAsync(bool held)
    {
        await RunAsync(primary, "ALTER SYSTEM SET synchronous_standby_names = ''");
        await RunAsync(primary, "SELECT pg_reload_conf()");
        await RunAsync(replica, held ? "SELECT pg_wal_replay_pause()" : "SELECT pg_wal_replay_resume()");
    }

    public void Dispose() => servers.ForEach(s => s.Stop());

    private ThrowAwayCluster NewReplica() => ThrowAwayCluster.StartFrom(
        Binaries, Settings, own => [Shipped("make-replica.sh"), $"host=127.0.0.1 port={primary.Port} user=postgres", own.Data, Name]);

    private async Task TogetherAsync()
    {
        await RunAsync(primary, $"ALTER SYSTEM SET synchronous_standby_names = '{Name}'");
        await RunAsync(primary, "SELECT pg_reload_conf()");
        for (var deadline = DateTime.UtcNow + Patience; !await IsTogetherAsync(); await Task.Delay(25))
        {
            if (DateTime.UtcNow > deadline)
            {
                throw new InvalidOperationException("The replica does not keep up with the primary.");
            }
        }
    }

    private async Task<bool> IsTogetherAsync()
    {
        await using var connection = new NpgsqlConnection(primary.ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("SELECT EXISTS (SELECT FROM pg_stat_replication WHERE state = 'streaming' AND sync_state = 'sync')", connection);
        return (bool)(await command.ExecuteScalarAsync())!;
    }

    private static async Task RunAsync(ThrowAwayCluster server, string sql)
    {
        await using var connection = new NpgsqlConnection(server.ConnectionString + ";Pooling=false");
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }

    private static DatabaseChoice Of(ThrowAwayCluster server, string database) => new(
        DatabaseKind.PostgreSQL, new NpgsqlConnectionStringBuilder(server.ConnectionString) { Database = database }.ConnectionString);

    private static string Shipped(string file) => Path.Combine(AppContext.BaseDirectory, "deploy", "postgresql", file);
}
