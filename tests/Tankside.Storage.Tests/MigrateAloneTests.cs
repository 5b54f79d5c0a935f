using Microsoft.EntityFrameworkCore;
using Npgsql;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>Several portals that start at once on one database.</summary>
public class MigrateAloneTests
{
    [Theory, BothDatabases]
    public async Task Portals_that_start_at_once_all_succeed_and_take_turns(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateEmptyAsync(kind);

        var found = await StartFourAsync(database, database.Choice);

        Assert.Equal([0, 1, 2, 3], found.Order());
    }

    [PostgresFact]
    public async Task Portals_that_start_at_once_make_a_missing_database_once()
    {
        var name = $"tankside_test_{Guid.NewGuid():n}";
        var choice = new DatabaseChoice(DatabaseKind.PostgreSQL, PostgresServer.ConnectionStringOf(name));
        var options = new DbContextOptionsBuilder<HatcheryDb>();
        Databases.Use(options, choice);

        var found = await StartFourAsync(new Contexts(options.Options), choice);

        await using (var connection = new NpgsqlConnection(choice.ConnectionString))
        {
            NpgsqlConnection.ClearPool(connection);
        }

        await PostgresServer.RunAsync($"DROP DATABASE \"{name}\" WITH (FORCE)");
        Assert.Equal([0, 1, 2, 3], found.Order());
    }

    [Theory, BothDatabases]
    public async Task A_start_that_fails_leaves_the_turn_to_the_next(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateEmptyAsync(kind);
        await Assert.ThrowsAsync<InvalidOperationException>(() => Databases.MigrateAloneAsync(
            database, database.Choice, _ => throw new InvalidOperationException("the seed is broken"), CancellationToken.None));

        var found = await StartFourAsync(database, database.Choice);

        Assert.Equal([0, 1, 2, 3], found.Order());
    }

    [Fact]
    public async Task Nobody_waits_for_a_program_that_was_killed_while_it_migrated()
    {
        await using var database = await TestDatabase.CreateEmptyAsync(DatabaseKind.Sqlite);
        await using (var db = database.CreateDbContext())
        {
            // As it stands in the file then.
            await db.Database.ExecuteSqlRawAsync("CREATE TABLE \"__EFMigrationsLock\" (\"Id\" INTEGER NOT NULL PRIMARY KEY, \"Timestamp\" TEXT NOT NULL)");
            await db.Database.ExecuteSqlRawAsync("INSERT INTO \"__EFMigrationsLock\" VALUES (1, '2026-11-28 00:21:50+00:00')");
        }

        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        await Databases.MigrateAloneAsync(database, database.Choice, _ => Task.CompletedTask, patience.Token);

        await using var after = database.CreateDbContext();
        Assert.Empty(await after.Database.GetPendingMigrationsAsync());
    }

    [Fact]
    public async Task A_new_file_keeps_a_log_beside_it_so_that_nobody_who_reads_waits_for_who_writes()
    {
        await using var database = await TestDatabase.CreateEmptyAsync(DatabaseKind.Sqlite);

        await Databases.MigrateAloneAsync(database, database.Choice, _ => Task.CompletedTask, CancellationToken.None);

        await using var after = database.CreateDbContext();
        Assert.Equal("wal", await after.Database.SqlQuery<string>($"SELECT journal_mode AS \"Value\" FROM pragma_journal_mode()").SingleAsync());
    }

    /// <summary>Each adds a programme after it migrated and says how many it found there before: 0, 1, 2, 3 when they took turns.</summary>
    private static async Task<int[]> StartFourAsync(IDbContextFactory<HatcheryDb> databases, DatabaseChoice choice)
    {
        var inside = 0;
        return await Task.WhenAll(Enumerable.Range(0, 4).Select(n => Task.Run(async () =>
        {
            var before = -1;
            await Databases.MigrateAloneAsync(databases, choice, async db =>
            {
                Assert.Equal(1, Interlocked.Increment(ref inside));
                for (var look = 0; look < 50; look++)
                {
                    before = await db.Programmes.CountAsync(); // Stays long enough for another to come in, if it could.
                }

                db.Add(new Programme { Id = Guid.NewGuid(), Name = $"Programme {n}", TimeZone = "UTC" });
                await db.SaveChangesAsync();
                Assert.Equal(0, Interlocked.Decrement(ref inside));
            }, CancellationToken.None);
            return before;
        })));
    }

    private sealed class Contexts(DbContextOptions<HatcheryDb> options) : IDbContextFactory<HatcheryDb>
    {
        public HatcheryDb CreateDbContext() => new(options);
    }
}
