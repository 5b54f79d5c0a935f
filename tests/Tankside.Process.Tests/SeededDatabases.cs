using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>The demo season, seeded by the command once in each database that the tests of a class ask for.</summary>
public sealed class SeededDatabases : IAsyncLifetime
{
    private readonly Dictionary<DatabaseKind, Lazy<Task<TestDatabase>>> databases =
        Enum.GetValues<DatabaseKind>().ToDictionary(kind => kind, kind => new Lazy<Task<TestDatabase>>(() => SeedAsync(kind)));

    public Task<TestDatabase> OfAsync(DatabaseKind kind) => databases[kind].Value;

    /// <summary>An installation on the seeded database.</summary>
    public async Task<Installation> InstallAsync(DatabaseKind kind, string environment = "Development") =>
        Installation.On(await OfAsync(kind), environment);

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync()
    {
        foreach (var database in databases.Values.Where(d => d.IsValueCreated))
        {
            await (await database.Value).DisposeAsync();
        }
    }

    private static async Task<TestDatabase> SeedAsync(DatabaseKind kind)
    {
        var database = await TestDatabase.CreateEmptyAsync(kind);
        using var installation = Installation.On(database);
        (await installation.RunAsync("demo")).Good();
        return database;
    }
}
