using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Migrations.Operations;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>
/// While nodes are replaced one by one, and after going back to the program before, an older program works on a newer schema. So a step of the
/// schema only adds; what is no longer used goes one release later, when no program that knows it is left, and is listed here with that reason.
/// </summary>
public partial class ExpandFirstTests
{
    /// <summary>Steps that do more than add, each with why no older program can meet it.</summary>
    private static readonly Dictionary<string, string> Allowed = new()
    {
        ["MorningRound"] = "before the first release",
        ["LotsAndReadiness"] = "before the first release",
        ["KitHistory"] = "before the first release",
        ["ReadingsBySeason"] = "the readings keep their name and columns; only where they lie changes",
    };

    [Theory, BothDatabases]
    public void Every_step_of_the_schema_only_adds_or_says_why_not(DatabaseKind kind)
    {
        var unconnected = new DbContextOptionsBuilder<HatcheryDb>();
        Databases.Use(unconnected, new DatabaseChoice(kind, kind == DatabaseKind.Sqlite ? "Data Source=unused.db" : "Host=unused"));
        using var db = new HatcheryDb(unconnected.Options);
        var (assembly, provider) = (db.GetService<IMigrationsAssembly>(), db.Database.ProviderName!);
        var breaks = assembly.Migrations.Skip(1)
            .Select(m => (Name: m.Key.Split('_')[1], Found: Breaks(assembly.CreateMigration(m.Value, provider).UpOperations).ToList()))
            .Where(m => m.Found.Count > 0).ToList();

        Assert.Empty(breaks.Where(b => !Allowed.ContainsKey(b.Name)).SelectMany(b => b.Found.Select(f => $"{b.Name}: {f}")));
        Assert.Equal(Allowed.Keys.Where(a => assembly.Migrations.Keys.Any(m => m.Split('_')[1] == a)).Order(), breaks.Select(b => b.Name).Order());
    }

    [Theory, BothDatabases]
    public async Task A_program_works_on_the_schema_of_the_next(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = new TestWorld();
        await using (var next = database.CreateDbContext())
        {
            var tables = next.Model.GetEntityTypes().Select(t => t.GetTableName()).OfType<string>().Distinct();
            await next.Database.ExecuteSqlRawAsync(string.Concat(tables.Select(t => $"ALTER TABLE {t} ADD COLUMN later integer NOT NULL DEFAULT 7;")));
            await next.Database.ExecuteSqlRawAsync("CREATE TABLE visits (id integer PRIMARY KEY); INSERT INTO \"__EFMigrationsHistory\" VALUES ('20990101000000_Later', '99.0.0')");
        }

        await Databases.MigrateAloneAsync(database, database.Choice, _ => Task.CompletedTask, CancellationToken.None);
        await using var db = database.CreateDbContext();
        world.One.AddTo(db);
        var rows = SampleRows.Of(world.One).Where(r => r is not Reading).ToList();
        db.AddRange(rows);
        await db.SaveChangesAsync();
        await db.SaveWithAsync([[.. Enumerable.Range(0, 60).Select(i => new Reading { SenderId = Guid.NewGuid(), TankId = world.One.Tanks[0].Id, At = SampleRows.At.AddMinutes(i), ReceivedAt = SampleRows.At, Seen = SampleRows.EverythingSeen, ContentHash = "0" })]], CancellationToken.None);

        await using var reader = database.CreateDbContext();
        Assert.Equal(60, await reader.Readings.CountAsync());
        Assert.Equal(rows.OfType<Flag>().Count(), await reader.Flags.CountAsync());
        Assert.Empty(await reader.Database.GetPendingMigrationsAsync());
    }

    [Fact]
    public void What_an_older_program_would_stumble_over_is_found()
    {
        MigrationOperation[] operations =
        [
            new DropTableOperation { Name = "tanks" },
            new DropColumnOperation { Table = "tanks", Name = "litres" },
            new RenameColumnOperation { Table = "tanks", Name = "litres", NewName = "volume" },
            new RenameTableOperation { Name = "tanks", NewName = "aquaria" },
            new AddColumnOperation { Table = "tanks", Name = "colour", ClrType = typeof(string), IsNullable = false },
            new AlterColumnOperation { Table = "tanks", Name = "code", ClrType = typeof(string), MaxLength = 10, OldColumn = new AddColumnOperation { ClrType = typeof(string), MaxLength = 20 } },
            new AlterColumnOperation { Table = "tanks", Name = "code", ClrType = typeof(string), IsNullable = true, OldColumn = new AddColumnOperation { ClrType = typeof(string) } },
            new CreateIndexOperation { Table = "tanks", Name = "one_code", Columns = ["code"], IsUnique = true },
            new AddCheckConstraintOperation { Table = "tanks", Name = "large", Sql = "litres > 10" },
            new AddForeignKeyOperation { Table = "tanks", Name = "of_room", Columns = ["classroom_id"], PrincipalTable = "classrooms" },
            new SqlOperation { Sql = "ALTER TABLE tanks RENAME COLUMN litres TO volume" },
        ];

        Assert.All(operations, operation => Assert.Single(Breaks([operation])));
        Assert.Empty(Breaks(
        [
            new CreateTableOperation { Name = "visits" },
            new CreateIndexOperation { Table = "visits", Name = "one_visit", Columns = ["day"], IsUnique = true },
            new AddColumnOperation { Table = "tanks", Name = "visit_id", ClrType = typeof(Guid), IsNullable = true },
            new AddForeignKeyOperation { Table = "tanks", Name = "of_visit", Columns = ["visit_id"], PrincipalTable = "visits" },
            new AddColumnOperation { Table = "tanks", Name = "shelf", ClrType = typeof(int), IsNullable = false, DefaultValue = 0 },
            new AlterColumnOperation { Table = "tanks", Name = "code", ClrType = typeof(string), MaxLength = 20, OldColumn = new AddColumnOperation { ClrType = typeof(string), MaxLength = 10 } },
            new CreateIndexOperation { Table = "tanks", Name = "by_shelf", Columns = ["shelf"] },
        ]));
    }

    /// <summary>What an older program would miss, could no longer write, or could not read.</summary>
    private static IEnumerable<string> Breaks(IReadOnlyList<MigrationOperation> operations)
    {
        var tables = operations.OfType<CreateTableOperation>().Select(t => t.Name).ToHashSet();
        var columns = operations.OfType<AddColumnOperation>().Select(c => (c.Table, c.Name)).ToHashSet();
        return operations.Select(operation => operation switch
        {
            DropTableOperation drop => $"the table {drop.Name} goes",
            DropColumnOperation drop => $"the column {drop.Table}.{drop.Name} goes",
            RenameTableOperation rename => $"the table {rename.Name} is renamed",
            RenameColumnOperation rename => $"the column {rename.Table}.{rename.Name} is renamed",
            AddColumnOperation { IsNullable: false, DefaultValue: null, DefaultValueSql: null, ComputedColumnSql: null } add => $"the column {add.Table}.{add.Name} has to be filled",
            AlterColumnOperation alter when !OnlyGrows(alter) => $"the column {alter.Table}.{alter.Name} changes",
            CreateIndexOperation { IsUnique: true } index when !IsNew(index.Table, index.Columns) => $"{index.Table} may not hold the same twice ({index.Name})",
            AddUniqueConstraintOperation unique when !IsNew(unique.Table, unique.Columns) => $"{unique.Table} may not hold the same twice ({unique.Name})",
            AddForeignKeyOperation key when !IsNew(key.Table, key.Columns) => $"{key.Table} has to refer to {key.PrincipalTable} ({key.Name})",
            AddCheckConstraintOperation check when !tables.Contains(check.Table) => $"{check.Table} is checked ({check.Name})",
            SqlOperation sql when Takes().IsMatch(sql.Sql) => $"its own SQL takes something away ({Takes().Match(sql.Sql).Value})",
            _ => null,
        }).OfType<string>();

        // An older program never fills a column that it does not know.
        bool IsNew(string table, string[] of) => tables.Contains(table) || of.Any(c => columns.Contains((table, c)));
    }

    [GeneratedRegex(@"\b(?:RENAME|DROP (?:TABLE|COLUMN))\b", RegexOptions.IgnoreCase)]
    private static partial Regex Takes();

    private static bool OnlyGrows(AlterColumnOperation alter) =>
        alter.ClrType == alter.OldColumn.ClrType && alter.IsNullable == alter.OldColumn.IsNullable
        && (alter.MaxLength ?? int.MaxValue) >= (alter.OldColumn.MaxLength ?? int.MaxValue);
}
