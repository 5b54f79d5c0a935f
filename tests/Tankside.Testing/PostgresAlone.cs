using Npgsql;
using Tankside.Storage;

namespace Tankside.Testing;

/// <summary>A PostgreSQL server of its own, which may be restarted, killed or short of room without anybody else noticing. What it has answered is written.</summary>
public sealed class PostgresAlone : IDisposable
{
    private readonly ThrowAwayCluster server;

    /// <param name="folder">Where its files are to lie; null for anywhere.</param>
    public PostgresAlone(string? folder = null) =>
        server = ThrowAwayCluster.Start(PostgresServer.Binaries ?? throw new InvalidOperationException(PostgresServer.WhyUnavailable), "-c synchronous_commit=on -c max_wal_size=64MB -c wal_init_zero=off", folder);

    public int Port => server.Port;

    /// <summary>Makes an empty database.</summary>
    public async Task<DatabaseChoice> CreateAsync(string database)
    {
        await RunAsync($"CREATE DATABASE \"{database}\"");
        return ChoiceOf(database);
    }

    /// <param name="port">Another way to it; null for its own port.</param>
    public DatabaseChoice ChoiceOf(string database, int? port = null) => new(
        DatabaseKind.PostgreSQL, new NpgsqlConnectionStringBuilder(server.ConnectionString) { Database = database, Port = port ?? server.Port }.ConnectionString);

    /// <summary>Stops it and starts it again on the same port.</summary>
    /// <param name="immediate">Without saying goodbye to anybody; it recovers as after a crash.</param>
    public void Restart(bool immediate) => server.Restart(immediate ? "immediate" : "fast");

    public void Start() => server.StartAgain();

    public void Stop() => server.Stop();

    /// <summary>How many are connected, besides whoever asks.</summary>
    public Task<long> ConnectionsAsync() => AskAsync("SELECT count(*) FROM pg_stat_activity WHERE backend_type = 'client backend' AND pid <> pg_backend_pid()");

    /// <summary>Bytes of a database.</summary>
    public Task<long> SizeAsync(string database) => AskAsync($"SELECT pg_database_size('{database}')");

    public void Dispose() => server.Stop();

    private async Task<long> AskAsync(string sql)
    {
        await using var connection = await OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        return (long)(await command.ExecuteScalarAsync())!;
    }

    private async Task RunAsync(string sql)
    {
        await using var connection = await OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }

    private async Task<NpgsqlConnection> OpenAsync()
    {
        var connection = new NpgsqlConnection(server.ConnectionString + ";Pooling=false");
        await connection.OpenAsync();
        return connection;
    }
}
