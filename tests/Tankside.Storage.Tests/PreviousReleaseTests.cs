using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>A database of the schema before the newest, with a row in every table, holds the same after the upgrade.</summary>
public class PreviousReleaseTests
{
    /// <summary>The migrations' own; a row in it would stop them.</summary>
    private const string Lock = "__EFMigrationsLock";

    /// <summary>Work for the judge, which an upgrade may add to.</summary>
    private const string Work = "unjudged_facts";

    [Theory, BothDatabases]
    public async Task Every_row_of_the_schema_before_is_the_same_after_the_upgrade(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        await FillAsync(database);
        await database.MigrateAsync(await PreviousAsync(database));
        var columns = await ColumnsAsync(database);
        var before = await RowsAsync(database, columns);

        await database.MigrateAsync();

        var after = await RowsAsync(database, columns);
        Assert.Empty(before.Where(t => t.Value.Count == 0).Select(t => t.Key).Except([Lock]));
        Assert.All(before, table => Assert.Equal(table.Value, table.Key == Work ? after[table.Key].Where(table.Value.Contains) : after[table.Key]));
    }

    [Theory, BothDatabases]
    public async Task The_way_down_leads_to_the_schema_that_the_release_before_made(DatabaseKind kind)
    {
        await using var down = await TestDatabase.CreateAsync(kind);
        await using var made = await TestDatabase.CreateEmptyAsync(kind);
        var previous = await PreviousAsync(down);
        await down.MigrateAsync(previous);
        await made.MigrateAsync(previous);

        Assert.Equal(
            (await ColumnsAsync(made)).Select(t => (t.Key, string.Join(' ', t.Value.Order()))),
            (await ColumnsAsync(down)).Select(t => (t.Key, string.Join(' ', t.Value.Order()))));
    }

    private static async Task FillAsync(TestDatabase database)
    {
        var world = new TestWorld();
        await using var db = database.CreateDbContext();
        world.One.AddTo(db);
        db.AddRange(SampleRows.Of(world.One));
        var person = world.One.People[Role.Coordinator].Id;
        db.AddRange(
            new DataProtectionKey { FriendlyName = "key", Xml = "<key/>" },
            new IdentityUserClaim<Guid> { UserId = person, ClaimType = "a", ClaimValue = "b" },
            new IdentityUserLogin<Guid> { UserId = person, LoginProvider = "a", ProviderKey = "b" },
            new IdentityUserToken<Guid> { UserId = person, LoginProvider = "a", Name = "b", Value = "c" },
            new IdentityUserPasskey<Guid> { UserId = person, CredentialId = [1, 2], Data = new IdentityPasskeyData { PublicKey = [3], Name = "phone", AttestationObject = [4], ClientDataJson = [5] } });
        await db.SaveChangesAsync();
        db.Add(new FlagEvent { FlagId = (await db.Flags.FirstAsync()).Id, At = SampleRows.At, Deed = FlagDeed.Taken });
        await db.SaveChangesAsync();
    }

    private static async Task<string> PreviousAsync(TestDatabase database)
    {
        await using var db = database.CreateDbContext();
        return db.Database.GetMigrations().SkipLast(1).Last();
    }

    /// <summary>The columns of every table, as the database itself tells them; a part of a table is read with its whole.</summary>
    private static async Task<SortedDictionary<string, List<string>>> ColumnsAsync(TestDatabase database)
    {
        var sql = database.Kind switch
        {
            DatabaseKind.Sqlite => "SELECT m.name || '.' || c.name FROM sqlite_master m, pragma_table_info(m.name) c WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite%'",
            DatabaseKind.PostgreSQL => "SELECT table_name || '.' || column_name FROM information_schema.columns WHERE table_schema = current_schema() AND NOT EXISTS (SELECT 1 FROM pg_inherits WHERE inhrelid = quote_ident(table_name)::regclass)",
        };
        var tables = new SortedDictionary<string, List<string>>(StringComparer.Ordinal);
        foreach (var name in await TextsAsync(database, sql))
        {
            var (table, column) = (name.Split('.')[0], name.Split('.')[1]);
            if (table != "__EFMigrationsHistory")
            {
                (tables.TryGetValue(table, out var found) ? found : tables[table] = []).Add(column);
            }
        }

        return tables;
    }

    /// <summary>Every value of these columns as the database writes it, a row a text, in the order of the texts.</summary>
    private static async Task<Dictionary<string, List<string>>> RowsAsync(TestDatabase database, SortedDictionary<string, List<string>> columns)
    {
        var rows = new Dictionary<string, List<string>>();
        foreach (var (table, names) in columns)
        {
            var values = names.Select(n => database.Kind == DatabaseKind.Sqlite ? $"quote(\"{n}\")" : $"quote_nullable(\"{n}\"::text)");
            rows[table] = [.. (await TextsAsync(database, $"SELECT {string.Join(" || ',' || ", values)} FROM \"{table}\"")).Order(StringComparer.Ordinal)];
        }

        return rows;
    }

    private static async Task<List<string>> TextsAsync(TestDatabase database, string sql)
    {
        await using var db = database.CreateDbContext();
        await db.Database.OpenConnectionAsync();
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        await using var reader = await command.ExecuteReaderAsync();
        var texts = new List<string>();
        while (await reader.ReadAsync())
        {
            texts.Add(reader.GetString(0));
        }

        return texts;
    }
}
