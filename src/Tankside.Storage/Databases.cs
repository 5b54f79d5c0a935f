using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;

namespace Tankside.Storage;

/// <summary>The two databases that everything runs on.</summary>
public enum DatabaseKind
{
    Sqlite,
    PostgreSQL,
}

/// <summary>Which database, and how to reach it.</summary>
public sealed record DatabaseChoice(DatabaseKind Kind, string ConnectionString);

public static class Databases
{
    /// <summary>Any number of our own, the same in every portal that shares a database.</summary>
    private const long MigrationLock = 7_402_611_853;

    /// <param name="from">Where long reading goes.</param>
    public static IServiceCollection AddHatcheryDb(this IServiceCollection services, DatabaseChoice choice, ReadFrom from = ReadFrom.Primary)
    {
        services.AddSingleton(choice);
        services.AddSingleton(provider => new Replica(
            provider.GetRequiredService<IDbContextFactory<HatcheryDb>>(), choice, from, provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton<IInterceptor, WithoutNul>();
        if (choice.IsOnSeveral())
        {
            services.AddSingleton<IInterceptor, WaitsForPrimary>();
        }

        return services.AddPooledDbContextFactory<HatcheryDb>((provider, options) => Use(options, choice).AddInterceptors(provider.GetServices<IInterceptor>()));
    }

    public static DbContextOptionsBuilder Use(DbContextOptionsBuilder options, DatabaseChoice choice) => choice.Kind switch
    {
        DatabaseKind.Sqlite => options.UseSqlite(choice.ConnectionString, x => x.MigrationsAssembly("Tankside.Storage.Sqlite")),
        DatabaseKind.PostgreSQL => options.UseNpgsql(Prepared(choice.ConnectionString), x => x.MigrationsAssembly("Tankside.Storage.PostgreSQL")),
    };

    /// <summary>Brings a database to another schema, and is used for nothing else. A step that is broken off leaves nothing of itself.</summary>
    public static HatcheryDb ToMigrate(DatabaseChoice choice, params IInterceptor[] interceptors)
    {
        var options = new DbContextOptionsBuilder<HatcheryDb>();
        if (choice.Kind == DatabaseKind.Sqlite)
        {
            choice = choice with { ConnectionString = $"{choice.ConnectionString};{SqliteMigrations.Unwatched}" };
            options.ReplaceService<IMigrationsSqlGenerator, SqliteMigrations>();
        }

        Use(options, choice).AddInterceptors(interceptors);
        return new HatcheryDb(options.Options);
    }

    /// <summary>
    /// The same few statements come by the thousand, so the server keeps their plans. Who gives "Max Auto Prepare" decides: 0 where a pooler
    /// in between cannot keep prepared statements.
    /// </summary>
    public static string Prepared(string connectionString)
    {
        var words = new DbConnectionStringBuilder { ConnectionString = connectionString };
        return words.ContainsKey("Max Auto Prepare") || words.ContainsKey("MaxAutoPrepare")
            ? connectionString
            : new NpgsqlConnectionStringBuilder(connectionString) { MaxAutoPrepare = 60, AutoPrepareMinUsages = 2 }.ConnectionString;
    }

    /// <summary>
    /// Brings the database to the newest schema and then does <paramref name="afterwards"/>, alone: several portals that start at once on one
    /// database wait for each other.
    /// </summary>
    public static Task MigrateAloneAsync(
        IDbContextFactory<HatcheryDb> factory, DatabaseChoice choice, Func<HatcheryDb, Task> afterwards, CancellationToken cancel) =>
        AloneAsync(factory, choice, async db =>
        {
            // Asked first: migrating compares the whole model with the newest migration, which a start without a new one need not wait for.
            if ((await db.Database.GetPendingMigrationsAsync(cancel)).Any())
            {
                if (choice.Kind == DatabaseKind.Sqlite)
                {
                    // EF says so only for a file that it makes itself, which is there already by then. Readers and a writer do not wait for each other so.
                    await db.Database.ExecuteSqlRawAsync("PRAGMA journal_mode = 'wal'", cancel);

                    // A program that was killed while it migrated leaves EF's own lock behind in the file, for which everybody after it would wait
                    // for good. Nobody holds it now: whoever does has our turn too.
                    await db.Database.ExecuteSqlRawAsync("DROP TABLE IF EXISTS \"__EFMigrationsLock\"", cancel);
                }

                await using var steps = ToMigrate(choice);
                await steps.Database.MigrateAsync(cancel);
            }

            await afterwards(db);
        }, cancel);

    /// <summary>Acts while every portal that starts on the same database waits.</summary>
    public static async Task AloneAsync(
        IDbContextFactory<HatcheryDb> factory, DatabaseChoice choice, Func<HatcheryDb, Task> act, CancellationToken cancel)
    {
        await using var db = await factory.CreateDbContextAsync(cancel);
        await using var turn = choice.Kind == DatabaseKind.PostgreSQL
            ? await AdvisoryTurnAsync(db, choice, cancel)
            : await FileTurnAsync(db, cancel);
        await act(db);
    }

    private static async Task<IAsyncDisposable> AdvisoryTurnAsync(HatcheryDb db, DatabaseChoice choice, CancellationToken cancel)
    {
        if (!await db.Database.CanConnectAsync(cancel))
        {
            // A missing database is made before the lock, which lives in it. Two portals may race here; the loser finds it made.
            try
            {
                await db.Database.GetService<Microsoft.EntityFrameworkCore.Storage.IRelationalDatabaseCreator>().CreateAsync(cancel);
            }
            catch (PostgresException e) when (e.SqlState is PostgresErrorCodes.DuplicateDatabase or PostgresErrorCodes.UniqueViolation)
            {
            }
        }

        var connection = new NpgsqlConnection(choice.ConnectionString);
        await connection.OpenAsync(cancel);
        await using var command = new NpgsqlCommand("SELECT pg_advisory_lock($1)", connection) { Parameters = { new() { Value = MigrationLock } } };
        command.CommandTimeout = 600;
        await command.ExecuteNonQueryAsync(cancel);
        return new AdvisoryTurn(connection);
    }

    private static async Task<IAsyncDisposable> FileTurnAsync(HatcheryDb db, CancellationToken cancel)
    {
        var file = db.Database.GetDbConnection().DataSource + ".lock";
        for (; ; )
        {
            try
            {
                return new FileStream(file, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
            }
            catch (IOException) when (Directory.Exists(Path.GetDirectoryName(Path.GetFullPath(file))))
            {
                await Task.Delay(TimeSpan.FromMilliseconds(50), cancel);
            }
        }
    }

    /// <summary>Holds the lock as long as its session; the session is not pooled back with the lock on it.</summary>
    private sealed class AdvisoryTurn(NpgsqlConnection connection) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            await using var command = new NpgsqlCommand("SELECT pg_advisory_unlock($1)", connection) { Parameters = { new() { Value = MigrationLock } } };
            await command.ExecuteNonQueryAsync();
            await connection.DisposeAsync();
        }
    }

    /// <summary>True when a save failed because another row already holds the same unique key.</summary>
    public static bool IsUniqueViolation(this DbUpdateException exception) => exception.InnerException switch
    {
        PostgresException postgres => postgres.SqlState == PostgresErrorCodes.UniqueViolation,
        Microsoft.Data.Sqlite.SqliteException sqlite => sqlite.SqliteExtendedErrorCode is 2067 or 1555,
        _ => false,
    };
}
