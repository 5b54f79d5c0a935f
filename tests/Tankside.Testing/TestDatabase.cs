using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql;
using Tankside.Storage;

namespace Tankside.Testing;

/// <summary>A database of its own for one test: fresh, of the newest schema, gone afterwards.</summary>
public sealed class TestDatabase : IDbContextFactory<HatcheryDb>, IAsyncDisposable
{
    private readonly DbContextOptions<HatcheryDb> options;

    private TestDatabase(DatabaseChoice choice)
    {
        Choice = choice;
        options = OptionsOf(choice);
    }

    public DatabaseChoice Choice { get; }

    public DatabaseKind Kind => Choice.Kind;

    /// <summary>A database with the newest schema and nothing in it.</summary>
    public static async Task<TestDatabase> CreateAsync(DatabaseKind kind) => new(kind switch
    {
        DatabaseKind.Sqlite => await SqliteTemplate.CopyAsync(),
        DatabaseKind.PostgreSQL => await PostgresTemplate.CloneAsync(),
    });

    /// <summary>A database without a schema: on SQLite not even a file yet.</summary>
    public static async Task<TestDatabase> CreateEmptyAsync(DatabaseKind kind) => new(kind switch
    {
        DatabaseKind.Sqlite => SqliteTemplate.NewFile(),
        DatabaseKind.PostgreSQL => await PostgresTemplate.NewDatabaseAsync(),
    });

    /// <summary>Another database that holds the same; nobody may be connected to this one meanwhile.</summary>
    public async Task<TestDatabase> CloneAsync() => new(Kind switch
    {
        DatabaseKind.Sqlite => await SqliteTemplate.CopyOfAsync(Choice),
        DatabaseKind.PostgreSQL => await PostgresTemplate.CloneOfAsync(Choice),
    });

    /// <summary>The same, to be used by many tests and gone with the process.</summary>
    public TestDatabase KeptToTheEnd()
    {
        if (Kind == DatabaseKind.Sqlite)
        {
            AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(Path.GetDirectoryName(SqliteCopy.FileOf(Choice))!, recursive: true);
        }
        else
        {
            PostgresServer.DropAtExit(new NpgsqlConnectionStringBuilder(Choice.ConnectionString).Database!);
        }

        return this;
    }

    /// <summary>A context of its own; dispose it.</summary>
    public HatcheryDb CreateDbContext() => new(options);

    /// <param name="to">A step of the schema, before or after where it stands; null for the newest.</param>
    public async Task MigrateAsync(string? to = null)
    {
        await using var db = Databases.ToMigrate(Choice);
        await db.GetService<IMigrator>().MigrateAsync(to);
    }

    public async ValueTask DisposeAsync()
    {
        switch (Kind)
        {
            case DatabaseKind.Sqlite:
                await using (var connection = new SqliteConnection(Choice.ConnectionString))
                {
                    SqliteConnection.ClearPool(connection);
                    Directory.Delete(Path.GetDirectoryName(connection.DataSource)!, recursive: true);
                }

                break;
            case DatabaseKind.PostgreSQL:
                await using (var connection = new NpgsqlConnection(Choice.ConnectionString))
                {
                    NpgsqlConnection.ClearPool(connection);
                    await PostgresServer.RunAsync($"DROP DATABASE \"{connection.Database}\" WITH (FORCE)");
                }

                break;
        }
    }

    /// <summary>A context on any database; dispose it.</summary>
    public static HatcheryDb Open(DatabaseChoice choice) => new(OptionsOf(choice));

    internal static DbContextOptions<HatcheryDb> OptionsOf(DatabaseChoice choice)
    {
        var builder = new DbContextOptionsBuilder<HatcheryDb>().EnableSensitiveDataLogging();
        Databases.Use(builder, choice);
        return builder.Options;
    }
}
