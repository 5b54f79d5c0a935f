using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using System.Text.Json;
using Npgsql;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>
/// The disk of the database is full while people write through every door. What is answered as stored is there, what is not was refused in clear
/// words, and once there is room everything goes on, with what was refused sent again.
/// </summary>
public static class FullDisk
{
    private const string Name = "tankside";

    /// <summary>Room beside what the season takes, before it is filled.</summary>
    private const int MegabytesFree = 24, MegabytesOfServer = 360;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);

    public static async Task<IReadOnlyList<Tally>> RunAsync(DatabaseKind kind, bool quick)
    {
        if (SmallDisk.WhyUnavailable is { } why)
        {
            throw new InvalidOperationException(why);
        }

        return kind switch
        {
            DatabaseKind.Sqlite => await OnFileAsync(quick),
            DatabaseKind.PostgreSQL => await OnServerAsync(quick),
        };
    }

    private static async Task<IReadOnlyList<Tally>> OnFileAsync(bool quick)
    {
        await using var seeded = await SeededDemo.CopyAsync(DatabaseKind.Sqlite);
        var source = SqliteCopy.FileOf(seeded.Choice);
        using var disk = new SmallDisk((int)(new FileInfo(source).Length >> 20) + MegabytesFree);
        var file = Path.Combine(disk.Folder, "tankside.db");
        File.Copy(source, file);
        return await OnAsync(new DatabaseChoice(DatabaseKind.Sqlite, $"Data Source={file}"), disk, quick, () => { });
    }

    private static async Task<IReadOnlyList<Tally>> OnServerAsync(bool quick)
    {
        using var disk = new SmallDisk(MegabytesOfServer);
        var folder = Directory.CreateDirectory(Path.Combine(disk.Folder, "server")).FullName;
        using var server = new PostgresAlone(folder);
        var choice = await server.CreateAsync(Name);
        await SeededDemo.SeedAsync(choice);
        return await OnAsync(choice, disk, quick, () =>
        {
            try
            {
                server.Start();
            }
            catch (InvalidOperationException)
            {
                // It runs: it has refused, and has not fallen over.
            }
        });
    }

    /// <param name="revive">Starts the server again, if it fell over, once there is room.</param>
    private static async Task<IReadOnlyList<Tally>> OnAsync(DatabaseChoice database, SmallDisk disk, bool quick, Action revive)
    {
        using var place = await FaultPlace.ServeAsync(database);
        var tallies = Doors.All.ToDictionary(d => d, d => new Tally($"disk full: {d.Name}", database.Kind));
        var open = new List<(Door Door, Act Act)>();
        foreach (var i in Enumerable.Range(1, quick ? 2 : 8))
        {
            foreach (var door in Doors.All)
            {
                open.Add((door, await door.OpenAsync(place, i)));
            }
        }

        disk.Fill();
        var told = new HashSet<Act>();
        foreach (var (door, act) in open)
        {
            disk.Fill(); // What was refused may have given room back.
            if (await TryAsync(act, tallies[door]))
            {
                told.Add(act);
            }
        }

        var around = new Tally("disk full: pages and commands", database.Kind);
        await LookAroundAsync(place, disk, around);
        disk.MakeRoom();
        revive();
        await ReadyAsync(place);
        foreach (var (door, act) in open.Where(o => !told.Contains(o.Act)))
        {
            if (!await TryAsync(act, tallies[door]))
            {
                tallies[door].Wrong("with room again it was not taken");
            }
        }

        await place.KillAsync();
        await place.StartAsync();
        await using var db = place.OpenDb();
        foreach (var (door, act) in open)
        {
            tallies[door].Found(await act.LookAsync(db), told: true);
        }

        return [.. tallies.Values, around];
    }

    private static async Task<bool> TryAsync(Act act, Tally tally)
    {
        var from = Stopwatch.GetTimestamp();
        try
        {
            var said = await act.SendAsync();
            tally.Answered(said, Stopwatch.GetElapsedTime(from));
            return said.IsStored;
        }
        catch (Exception e) when (e is HttpRequestException or IOException or SocketException or TaskCanceledException or JsonException)
        {
            tally.Cut();
            return false;
        }
    }

    /// <summary>Who reads is served as long as the database reads; a backup onto the full disk says so and leaves nothing half.</summary>
    private static async Task LookAroundAsync(FaultPlace place, SmallDisk disk, Tally tally)
    {
        foreach (var (client, page) in new[] { (place.Coordinator, "/round"), (place.Coordinator, "/ledger"), (place.Nobody, $"/t/{place.Tanks[0].Label}"), (place.Nobody, "/health/live"), (place.Nobody, "/health/ready") })
        {
            using var answer = await client.GetAsync(page);
            tally.Saw(string.Create(CultureInfo.InvariantCulture, $"{(page.StartsWith("/t/", StringComparison.Ordinal) ? "/t/…" : page)}: {(int)answer.StatusCode}"));
        }

        disk.Fill();
        var backup = Path.Combine(disk.Folder, "night.zip");
        var ended = await place.Installation.RunAsync("backup", "--out", backup);
        tally.Saw($"backup ended with {ended.ExitCode}: {ended.Trouble.Trim().Split('\n')[^1].Replace(disk.Folder, "…", StringComparison.Ordinal)}");
        if (ended.ExitCode == 0 || Directory.GetFiles(disk.Folder, "night*").Length > 0)
        {
            tally.Wrong("a backup onto a full disk was not refused, or left something");
        }
    }

    private static async Task ReadyAsync(FaultPlace place)
    {
        for (var deadline = DateTime.UtcNow + Patience; ; await Task.Delay(200))
        {
            using var answer = await place.Nobody.GetAsync("/health/ready");
            if (answer.IsSuccessStatusCode)
            {
                NpgsqlConnection.ClearAllPools();
                return;
            }

            if (DateTime.UtcNow > deadline)
            {
                throw new InvalidOperationException("With room again the portal does not get ready.");
            }
        }
    }
}
