using Tankside.Process.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>The demo season, seeded by the command once in each database, and copies of it.</summary>
public static class SeededDemo
{
    private static readonly Dictionary<DatabaseKind, Lazy<Task<TestDatabase>>> Templates =
        Enum.GetValues<DatabaseKind>().ToDictionary(kind => kind, kind => new Lazy<Task<TestDatabase>>(() => SeedAsync(kind)));

    public static async Task<TestDatabase> CopyAsync(DatabaseKind kind) => await (await Templates[kind].Value).CloneAsync();

    /// <summary>Into a database that somebody else made.</summary>
    public static async Task SeedAsync(DatabaseChoice database)
    {
        using var installation = Installation.On(database);
        (await installation.RunAsync("demo")).Good();
    }

    private static async Task<TestDatabase> SeedAsync(DatabaseKind kind)
    {
        var database = await TestDatabase.CreateEmptyAsync(kind);
        await SeedAsync(database.Choice);
        return database.KeptToTheEnd();
    }
}
