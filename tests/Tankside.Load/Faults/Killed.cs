using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net.Sockets;
using System.Text.Json;
using Tankside.Storage;

namespace Tankside.Load.Faults;

/// <summary>
/// SIGKILL while people write through every door at once, at a moment that nobody chose. What was answered is there once; what was not is there
/// whole or not at all, and sent again it is there once.
/// </summary>
public static class Killed
{
    /// <summary>Of each door in a round.</summary>
    private const int Acts = 8;

    public static async Task<IReadOnlyList<Tally>> RunAsync(DatabaseKind kind, bool quick)
    {
        await using var database = await SeededDemo.CopyAsync(kind);
        using var place = await FaultPlace.ServeAsync(database.Choice);
        var tallies = Doors.All.ToDictionary(d => d, d => new Tally($"killed: {d.Name}", kind));
        await ColdAsync(place, tallies);
        for (var round = 0; round < (quick ? 2 : 10); round++)
        {
            await RoundAsync(place, round, tallies);
        }

        return [.. tallies.Values];
    }

    /// <summary>Once without a fault: every door takes what is sent, or nothing here would mean anything.</summary>
    private static async Task ColdAsync(FaultPlace place, Dictionary<Door, Tally> tallies)
    {
        foreach (var (door, tally) in tallies)
        {
            var act = await door.OpenAsync(place, 0);
            var said = await act.SendAsync();
            await using var db = place.OpenDb();
            if (!said.IsStored || await act.LookAsync(db) != Stands.Once)
            {
                throw new InvalidOperationException($"{door.Name} does not store what is sent, without any fault: {said.Words}");
            }
        }
    }

    private static async Task RoundAsync(FaultPlace place, int round, Dictionary<Door, Tally> tallies)
    {
        var open = new List<(Door Door, Act Act)>();
        foreach (var i in Enumerable.Range(0, Acts))
        {
            foreach (var door in Doors.All)
            {
                open.Add((door, await door.OpenAsync(place, (round * Acts) + i + 1)));
            }
        }

        // Not on the stroke of an answer, but anywhere in the middle of the next ones.
        var enough = Random.Shared.Next(open.Count * 2 / 3);
        var reached = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var told = new ConcurrentDictionary<Act, bool>();
        var lanes = open.GroupBy(o => o.Door).Select(lane => Task.Run(async () =>
        {
            foreach (var (door, act) in lane)
            {
                await TryAsync(act, tallies[door], told);
                if (told.Count >= enough)
                {
                    reached.TrySetResult();
                }
            }
        })).ToList();
        await Task.WhenAny(reached.Task, Task.WhenAll(lanes));
        await Task.Delay(Random.Shared.Next(60));
        await place.KillAsync();
        await Task.WhenAll(lanes);

        await place.StartAsync();
        await using var db = place.OpenDb();
        foreach (var (door, act) in open)
        {
            tallies[door].Found(await act.LookAsync(db), told.ContainsKey(act));
        }

        foreach (var (door, act) in open.Where(o => !told.ContainsKey(o.Act)))
        {
            if (!await TryAsync(act, tallies[door], told))
            {
                tallies[door].Wrong("sent again it was not taken");
            }
        }

        foreach (var (door, act) in open)
        {
            tallies[door].Found(await act.LookAsync(db), told: true);
        }
    }

    /// <summary>False when it was not answered as stored.</summary>
    private static async Task<bool> TryAsync(Act act, Tally tally, ConcurrentDictionary<Act, bool> told)
    {
        var from = Stopwatch.GetTimestamp();
        try
        {
            var said = await act.SendAsync();
            tally.Answered(said, Stopwatch.GetElapsedTime(from));
            if (said.IsStored)
            {
                told[act] = true;
            }

            return said.IsStored;
        }
        // A line that dies while it is being opened is a bare SocketException.
        catch (Exception e) when (e is HttpRequestException or IOException or SocketException or TaskCanceledException or JsonException)
        {
            tally.Cut();
            return false;
        }
    }
}
