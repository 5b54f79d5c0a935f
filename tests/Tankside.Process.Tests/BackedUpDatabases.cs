using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>A small world in each database, and one backup of it, made by the command once for the tests of a class.</summary>
public sealed class BackedUpDatabases : IAsyncLifetime
{
    /// <summary>Two programmes with two tanks each.</summary>
    public const int Tanks = 4;

    private readonly string folder = Directory.CreateTempSubdirectory("tankside-backups-").FullName;
    private readonly Dictionary<DatabaseKind, Lazy<Task<(TestDatabase Database, string Backup)>>> made;

    public BackedUpDatabases() => made = Enum.GetValues<DatabaseKind>()
        .ToDictionary(kind => kind, kind => new Lazy<Task<(TestDatabase, string)>>(() => MakeAsync(kind)));

    public async Task<TestDatabase> OfAsync(DatabaseKind kind) => (await made[kind].Value).Database;

    /// <summary>The backup; nobody changes it.</summary>
    public async Task<string> BackupOfAsync(DatabaseKind kind) => (await made[kind].Value).Backup;

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync()
    {
        foreach (var one in made.Values.Where(m => m.IsValueCreated))
        {
            await (await one.Value).Database.DisposeAsync();
        }

        Directory.Delete(folder, recursive: true);
    }

    private async Task<(TestDatabase Database, string Backup)> MakeAsync(DatabaseKind kind)
    {
        var database = await TestDatabase.CreateAsync(kind);
        await TestWorld.SeedAsync(database);
        using var installation = Installation.On(database);
        var file = Path.Combine(folder, $"{kind}.zip");
        (await installation.RunAsync("backup", "--out", file)).Good();
        return (database, file);
    }
}
