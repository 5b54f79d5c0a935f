using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Process.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>SIGKILL in the middle of each command that writes. Started again it ends as if it had never been killed.</summary>
public static class KilledCommands
{
    private static readonly string[] Simulate = ["simulate", "--tanks", "120", "--days", "60", "--seed", "7"];

    public static async Task<IReadOnlyList<Tally>> RunAsync(DatabaseKind kind, bool quick)
    {
        var rounds = quick ? 2 : 8;
        await using var demo = await SeededDemo.CopyAsync(kind);
        using var whole = Installation.On(demo);
        (await whole.RunAsync("rebuild")).Good();
        (await whole.RunAsync("backup", "--out", "demo.zip")).Good();
        var backup = Path.Combine(whole.Folder, "demo.zip");
        return
        [
            await OnEmptyAsync(kind, rounds, [], "migrate"),
            await OnEmptyAsync(kind, rounds, ["holds a programme already"], "demo"),
            await OnEmptyAsync(kind, rounds, ["holds a programme already"], Simulate),
            await OnEmptyAsync(kind, rounds, ["holds a programme", "is not empty"], "restore", "--from", backup),
            await OnSeededAsync(kind, rounds, "rebuild"),
            await OnSeededAsync(kind, rounds, "backup", "--out", "again.zip"),
        ];
    }

    /// <param name="words">Of the command.</param>
    /// <param name="done">What the second start may say when the first had done everything.</param>
    private static async Task<Tally> OnEmptyAsync(DatabaseKind kind, int rounds, string[] done, params string[] words)
    {
        var tally = new Tally($"killed command: {words[0]}", kind);
        await using var reference = await TestDatabase.CreateEmptyAsync(kind);
        using var unhurt = Installation.On(reference);
        var watch = Stopwatch.StartNew();
        (await unhurt.RunAsync(words)).Good();
        var (lasts, expected) = (watch.Elapsed, await CountAsync(reference));
        for (var i = 0; i < rounds; i++)
        {
            await using var database = await TestDatabase.CreateEmptyAsync(kind);
            using var installation = Installation.On(database);
            await KillAsync(tally, installation, lasts, words);
            // What a broken-off simulation left is thrown away with its database: it is there for trying out.
            var isDone = await AgainAsync(tally, installation, done, words);
            if ((isDone || words != Simulate) && await CountAsync(database) is var found && found != expected)
            {
                tally.Wrong($"is not as if never killed: {found} instead of {expected}");
            }
        }

        return tally;
    }

    private static async Task<Tally> OnSeededAsync(DatabaseKind kind, int rounds, params string[] words)
    {
        var tally = new Tally($"killed command: {words[0]}", kind);
        await using var database = await SeededDemo.CopyAsync(kind);
        using var installation = Installation.On(database);
        var watch = Stopwatch.StartNew();
        (await installation.RunAsync(words)).Good();
        var (lasts, expected) = (watch.Elapsed, await CountAsync(database));
        for (var i = 0; i < rounds; i++)
        {
            await KillAsync(tally, installation, lasts, words);
            await AgainAsync(tally, installation, [], words);
            if (await CountAsync(database) is var found && found != expected)
            {
                tally.Wrong($"is not as if never killed: {found} instead of {expected}");
            }

            if (words[0] == "backup")
            {
                (await installation.RunAsync("restore", "--from", words[^1], "--try")).Good();
            }
        }

        return tally;
    }

    private static async Task KillAsync(Tally tally, Installation installation, TimeSpan lasts, string[] words)
    {
        // The first part is the start of the program, which writes nothing.
        if (await installation.RunKilledAsync(lasts * (0.25 + (0.7 * Random.Shared.NextDouble())), words) is null)
        {
            tally.Cut();
        }
        else
        {
            tally.Saw("it was faster than the kill");
        }
    }

    /// <returns>True when it ended well.</returns>
    private static async Task<bool> AgainAsync(Tally tally, Installation installation, string[] done, string[] words)
    {
        var watch = Stopwatch.StartNew();
        try
        {
            var ended = await installation.RunAsync(words);
            var isThere = done.Any(d => ended.Trouble.Contains(d, StringComparison.Ordinal));
            tally.Answered(new Said(ended.ExitCode == 0, string.Create(CultureInfo.InvariantCulture, $"ended with {ended.ExitCode}: {ended.Trouble.Trim()}"), isThere), watch.Elapsed);
            return ended.ExitCode == 0;
        }
        catch (TimeoutException e)
        {
            tally.Wrong(e.Message);
            return false;
        }
    }

    /// <summary>How much there is of what these commands write.</summary>
    private static async Task<(int Tanks, int Readings, int Lines, int Receipts, int Days, int Acts)> CountAsync(TestDatabase database)
    {
        await using var db = database.CreateDbContext();
        return (await db.Database.GetPendingMigrationsAsync()).Any() ? (-1, 0, 0, 0, 0, 0)
            : (await db.Tanks.CountAsync(), await db.Readings.CountAsync(), await db.Ledger.CountAsync(), await db.Receipts.CountAsync(), await db.TankDays.CountAsync(), await db.KitActs.CountAsync());
    }
}
