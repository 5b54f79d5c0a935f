using Microsoft.Data.Sqlite;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>The database is restarted, slow, stopped up or held by somebody else while loggers, classes and people go on.</summary>
public static class AwayDatabase
{
    private const string Name = "tankside";
    private const int Loggers = 4, Classes = 4, People = 3;

    private static readonly TimeSpan Calm = TimeSpan.FromSeconds(5), LongerThanAQuestion = TimeSpan.FromSeconds(45), Held = TimeSpan.FromSeconds(20);

    /// <summary>Stopped and started again, saying goodbye or not.</summary>
    public static async Task<IReadOnlyList<Tally>> RestartAsync(DatabaseKind kind, bool quick) =>
    [
        await RestartAsync(kind, immediate: false, quick ? 1 : 5),
        await RestartAsync(kind, immediate: true, quick ? 1 : 5),
    ];

    public static async Task<IReadOnlyList<Tally>> SlowAsync(DatabaseKind kind, bool quick) =>
    [
        await OnSlowWayAsync(new Tally("slow: 200 ms each way", kind), async way =>
        {
            way.Delay = TimeSpan.FromMilliseconds(200);
            await Task.Delay(TimeSpan.FromSeconds(quick ? 8 : 60));
            way.Delay = TimeSpan.Zero;
        }),
        await OnSlowWayAsync(new Tally("slow: stands still for 45 s", kind), async way =>
        {
            way.Stall();
            await Task.Delay(LongerThanAQuestion);
            way.GoOn();
        }),
    ];

    /// <summary>Another process has the write lock of the file.</summary>
    public static async Task<IReadOnlyList<Tally>> HeldAsync(DatabaseKind kind, bool quick)
    {
        var lines = new List<Tally>();
        // The second is longer than the database waits for the lock by itself.
        foreach (var held in new[] { Held, Held * 2 })
        {
            await using var database = await TestDatabase.CreateAsync(kind);
            using var place = await TrafficPlace.SeedAsync(database.Choice);
            await place.ServeAsync(Loggers, Classes, People);
            await Task.Delay(Calm);
            await HoldAsync(database.Choice, held);
            await Task.Delay(quick ? Calm : Calm * 2);
            lines.Add(await EndedAsync(place, new Tally($"held: the write lock for {held.TotalSeconds:0} s", kind)));
        }

        return lines;
    }

    /// <summary>As a program of somebody else does that looks at the file and is slow.</summary>
    public static async Task HoldAsync(DatabaseChoice database, TimeSpan time)
    {
        await using var connection = new SqliteConnection(new SqliteConnectionStringBuilder(database.ConnectionString) { Pooling = false }.ConnectionString);
        await connection.OpenAsync();
        await using var transaction = connection.BeginTransaction(deferred: false);
        await Task.Delay(time);
    }

    private static async Task<Tally> RestartAsync(DatabaseKind kind, bool immediate, int times)
    {
        using var server = new PostgresAlone();
        using var place = await TrafficPlace.SeedAsync(await server.CreateAsync(Name));
        await place.ServeAsync(Loggers, Classes, People);
        for (var i = 0; i < times; i++)
        {
            await Task.Delay(Calm);
            server.Restart(immediate);
            await Task.Delay(Calm);
        }

        return await EndedAsync(place, new Tally($"restart: {(immediate ? "immediate" : "fast")}, {times} times", kind));
    }

    private static async Task<Tally> OnSlowWayAsync(Tally tally, Func<PassThrough, Task> happensAsync)
    {
        using var server = new PostgresAlone();
        using var way = new PassThrough(server.Port);
        using var place = await TrafficPlace.SeedAsync(await server.CreateAsync(Name), server.ChoiceOf(Name, way.Port));
        await place.ServeAsync(Loggers, Classes, People);
        await Task.Delay(Calm);
        await happensAsync(way);
        await Task.Delay(Calm * 2);
        return await EndedAsync(place, tally);
    }

    private static async Task<Tally> EndedAsync(TrafficPlace place, Tally tally)
    {
        await place.EndAsync();
        await place.CountAsync(tally);
        return tally;
    }
}
