using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>The demo season, seeded by the command once in each database that tests ask for; each class has a copy of its own.</summary>
public sealed class SeededDatabases : IAsyncLifetime
{
    private static readonly Dictionary<DatabaseKind, Lazy<Task<TestDatabase>>> Templates = ForEach(SeedAsync);

    /// <summary>One copy after the other: a template may have no visitor.</summary>
    private static readonly SemaphoreSlim Turn = new(1);

    private readonly Dictionary<DatabaseKind, Lazy<Task<TestDatabase>>> databases = ForEach(CopyAsync);

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

    private static Dictionary<DatabaseKind, Lazy<Task<TestDatabase>>> ForEach(Func<DatabaseKind, Task<TestDatabase>> make) =>
        Enum.GetValues<DatabaseKind>().ToDictionary(kind => kind, kind => new Lazy<Task<TestDatabase>>(() => make(kind)));

    private static async Task<TestDatabase> CopyAsync(DatabaseKind kind)
    {
        var template = await Templates[kind].Value;
        await Turn.WaitAsync();
        try
        {
            return await template.CloneAsync();
        }
        finally
        {
            Turn.Release();
        }
    }

    private static async Task<TestDatabase> SeedAsync(DatabaseKind kind)
    {
        var database = await TestDatabase.CreateEmptyAsync(kind);
        using var installation = Installation.On(database);
        (await installation.RunAsync("demo")).Good();
        return database.KeptToTheEnd();
    }
}
