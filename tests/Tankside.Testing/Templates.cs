using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using Tankside.Storage;

namespace Tankside.Testing;

/// <summary>A SQLite file with the newest schema, made once in a process and written out for every test.</summary>
internal static class SqliteTemplate
{
    private static readonly Lazy<Task<byte[]>> Template = new(MakeAsync);

    public static DatabaseChoice NewFile() => ChoiceOf(Path.Combine(Directory.CreateTempSubdirectory("tankside-test-").FullName, "tankside.db"));

    public static async Task<DatabaseChoice> CopyAsync()
    {
        var template = await Template.Value;
        var choice = NewFile();
        await File.WriteAllBytesAsync(new SqliteConnectionStringBuilder(choice.ConnectionString).DataSource, template);
        return choice;
    }

    public static async Task<DatabaseChoice> CopyOfAsync(DatabaseChoice other)
    {
        await using (var connection = new SqliteConnection(other.ConnectionString))
        {
            SqliteConnection.ClearPool(connection);
        }

        var choice = NewFile();
        File.Copy(SqliteCopy.FileOf(other), SqliteCopy.FileOf(choice));
        return choice;
    }

    private static async Task<byte[]> MakeAsync()
    {
        await using var database = await TestDatabase.CreateEmptyAsync(DatabaseKind.Sqlite);
        await using var connection = new SqliteConnection(database.Choice.ConnectionString);
        await database.MigrateAsync();

        // The last connection to close writes everything back into the one file that is copied.
        SqliteConnection.ClearPool(connection);
        return await File.ReadAllBytesAsync(connection.DataSource);
    }

    private static DatabaseChoice ChoiceOf(string file) =>
        new(DatabaseKind.Sqlite, new SqliteConnectionStringBuilder { DataSource = file }.ConnectionString);
}

/// <summary>A PostgreSQL database with the newest schema, made once in a process and cloned for every test.</summary>
internal static class PostgresTemplate
{
    private static readonly Lazy<Task<string>> Template = new(MakeAsync);

    public static async Task<DatabaseChoice> NewDatabaseAsync() => ChoiceOf(await CreateAsync(""));

    public static async Task<DatabaseChoice> CloneAsync() => ChoiceOf(await CreateAsync($" TEMPLATE \"{await Template.Value}\""));

    public static async Task<DatabaseChoice> CloneOfAsync(DatabaseChoice other)
    {
        await using var connection = new NpgsqlConnection(other.ConnectionString);
        NpgsqlConnection.ClearPool(connection);
        return ChoiceOf(await CreateAsync($" TEMPLATE \"{connection.Database}\""));
    }

    private static async Task<string> MakeAsync()
    {
        var name = await CreateAsync("");
        var choice = ChoiceOf(name);
        await using (var db = new HatcheryDb(TestDatabase.OptionsOf(choice)))
        {
            await db.Database.MigrateAsync();
        }

        // An open connection to a template blocks its cloning.
        await using var connection = new NpgsqlConnection(choice.ConnectionString);
        NpgsqlConnection.ClearPool(connection);
        PostgresServer.DropAtExit(name);
        return name;
    }

    private static async Task<string> CreateAsync(string from)
    {
        var name = $"tankside_test_{Guid.NewGuid():n}";
        await PostgresServer.RunAsync($"CREATE DATABASE \"{name}\"{from}");
        return name;
    }

    private static DatabaseChoice ChoiceOf(string name) => new(DatabaseKind.PostgreSQL, PostgresServer.ConnectionStringOf(name));
}
