using Npgsql;
using Tankside.Storage;

namespace Tankside.Testing;

/// <summary>
/// The PostgreSQL server of this test process: the one that TANKSIDE_TEST_POSTGRES names, or a throw-away one started from the binaries
/// that are installed. Started by the first test that asks, gone with the process.
/// </summary>
public static class PostgresServer
{
    private const string Variable = "TANKSIDE_TEST_POSTGRES";

    private static readonly string? Given = Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } text ? text : null;

    /// <summary>Where the server's programs lie; null where none are installed.</summary>
    internal static string? Binaries { get; } = FindBinaries();

    private static readonly Lazy<string> Server = new(() => Given ?? ThrowAwayCluster.Start(Binaries!).ConnectionString);

    /// <summary>Why there is no server, and what to install; null when there is one.</summary>
    public static string? WhyUnavailable => Given is null && Binaries is null
        ? $"No PostgreSQL found. Install the server (Debian: apt-get install postgresql) or set {Variable} to a connection string that may create databases."
        : null;

    /// <summary>A connection string on which databases may be created.</summary>
    public static string ConnectionString => WhyUnavailable is { } why ? throw new InvalidOperationException(why) : Server.Value;

    /// <summary>The same server, another database.</summary>
    public static string ConnectionStringOf(string database) =>
        Databases.Prepared(new NpgsqlConnectionStringBuilder(ConnectionString) { Database = database, MaxPoolSize = 20, IncludeErrorDetail = true }.ConnectionString);

    /// <summary>Runs one statement on the server's own database.</summary>
    public static async Task RunAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }

    /// <summary>Drops a database when the process ends; a throw-away server is gone by then with everything in it.</summary>
    internal static void DropAtExit(string database) => AppDomain.CurrentDomain.ProcessExit += (_, _) =>
    {
        if (Given is not null)
        {
            RunAsync($"DROP DATABASE \"{database}\" WITH (FORCE)").GetAwaiter().GetResult();
        }
    };

    /// <summary>The newest server installed: on the path, or where Debian keeps its versions.</summary>
    private static string? FindBinaries()
    {
        if (Programs.OnPath("initdb") is { } initdb && Programs.OnPath("pg_ctl") is not null)
        {
            return Path.GetDirectoryName(initdb);
        }

        return !Directory.Exists("/usr/lib/postgresql") ? null : Directory.GetDirectories("/usr/lib/postgresql")
            .OrderByDescending(folder => int.TryParse(Path.GetFileName(folder), out var version) ? version : 0)
            .Select(folder => Path.Combine(folder, "bin"))
            .FirstOrDefault(bin => File.Exists(Path.Combine(bin, "initdb")) && File.Exists(Path.Combine(bin, "pg_ctl")));
    }
}
