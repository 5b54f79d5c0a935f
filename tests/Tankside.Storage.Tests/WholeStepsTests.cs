using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>A step of the schema that is broken off leaves nothing of itself, and the next start makes it.</summary>
public class WholeStepsTests
{
    [Theory, BothDatabases]
    public async Task A_start_that_is_broken_off_wherever_a_table_is_changed_is_made_good_by_the_next(DatabaseKind kind)
    {
        await using var straight = await TestDatabase.CreateEmptyAsync(kind);
        await straight.MigrateAsync();
        await using var broken = await TestDatabase.CreateEmptyAsync(kind);
        var breaks = new Breaks();

        for (var done = false; !done; done = !breaks.HaveBrokenOff)
        {
            breaks.HaveBrokenOff = false;
            await using var steps = Databases.ToMigrate(broken.Choice, breaks);
            try
            {
                await steps.Database.MigrateAsync();
            }
            catch (BrokenOffException)
            {
                // As a power cut would: nobody tidies up. The next start lets go of EF's own lock, too.
                await using var db = broken.CreateDbContext();
                await db.Database.ExecuteSqlRawAsync("DROP TABLE IF EXISTS \"__EFMigrationsLock\"");
            }
        }

        // On SQLite a table that a step makes anew is put in its place so; EF by itself would have left the transaction before.
        Assert.True(breaks.Times >= 10, $"It was broken off {breaks.Times} times only.");
        Assert.Equal(await SchemaAsync(straight), await SchemaAsync(broken));
    }

    [Fact]
    public async Task Rows_that_point_at_a_table_that_is_made_anew_stay_and_keep_pointing()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseKind.Sqlite);
        await TestWorld.SeedAsync(database);
        await using var db = database.CreateDbContext();
        var before = (await db.Tanks.CountAsync(), await db.Receipts.CountAsync(), await db.Ledger.CountAsync());

        // On the way down and up again nearly every table is made anew.
        await database.MigrateAsync("ClassDoors");
        await database.MigrateAsync();

        Assert.Equal(before, (await db.Tanks.CountAsync(), await db.Receipts.CountAsync(), await db.Ledger.CountAsync()));
        Assert.Empty(await db.Database.SqlQueryRaw<string>("SELECT \"table\" AS \"Value\" FROM pragma_foreign_key_check()").ToListAsync());
    }

    private static async Task<List<string>> SchemaAsync(TestDatabase database)
    {
        await using var db = database.CreateDbContext();
        return await db.Database.SqlQueryRaw<string>(database.Kind == DatabaseKind.Sqlite
            ? "SELECT name || ' ' || coalesce(sql, '') AS \"Value\" FROM sqlite_master WHERE name <> '__EFMigrationsLock' ORDER BY 1"
            : "SELECT table_name || '.' || column_name || ' ' || data_type || ' ' || is_nullable AS \"Value\" FROM information_schema.columns WHERE table_schema = current_schema() ORDER BY 1").ToListAsync();
    }

    /// <summary>Breaks off once after every sixth statement that changes a table, and once after each that puts a new one in the place of an old.</summary>
    private sealed class Breaks : DbCommandInterceptor
    {
        private const int Every = 6;

        private readonly HashSet<string> done = [];

        public bool HaveBrokenOff { get; set; }

        public int Times { get; private set; }

        public override ValueTask<int> NonQueryExecutedAsync(DbCommand command, CommandExecutedEventData eventData, int result, CancellationToken cancellationToken = default)
        {
            if (command.CommandText.StartsWith("ALTER TABLE", StringComparison.Ordinal) && done.Add(command.CommandText)
                && (done.Count % Every == 0 || command.CommandText.Contains("RENAME TO", StringComparison.Ordinal)))
            {
                Times++;
                HaveBrokenOff = true;
                throw new BrokenOffException();
            }

            return base.NonQueryExecutedAsync(command, eventData, result, cancellationToken);
        }
    }

    private sealed class BrokenOffException : Exception;
}
