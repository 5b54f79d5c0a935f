using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>One kind of fault.</summary>
/// <param name="Kinds">Databases that it can happen to.</param>
/// <param name="RunAsync">Lets it happen, a lot or, to see that it works, a little; gives the lines of the table.</param>
public sealed record Fault(string Name, IReadOnlyList<DatabaseKind> Kinds, Func<DatabaseKind, bool, Task<IReadOnlyList<Tally>>> RunAsync);

/// <summary>Lets things go wrong with real processes and compares what was told with what is there.</summary>
public static class FaultRun
{
    public const string Command = "faults";

    private static readonly DatabaseKind[] Both = Enum.GetValues<DatabaseKind>();

    private static readonly IReadOnlyList<Fault> All =
    [
        new("killed", Both, Killed.RunAsync),
        new("killed-commands", Both, KilledCommands.RunAsync),
        new("disk-full", Both, FullDisk.RunAsync),
        new("restart", [DatabaseKind.PostgreSQL], AwayDatabase.RestartAsync),
        new("slow", [DatabaseKind.PostgreSQL], AwayDatabase.SlowAsync),
        new("held", [DatabaseKind.Sqlite], AwayDatabase.HeldAsync),
        new("mail", Both, MailTrouble.RunAsync),
        new("clock", Both, ClockJumps.RunAsync),
        new("idle", Both, Floods.IdleAsync),
        new("slow-clients", Both, Floods.SlowClientsAsync),
        new("living-pages", Both, Floods.LivingPagesAsync),
        new("uploads", Both, Uploads.RunAsync),
    ];

    /// <summary>Prints the table; 1 when something was lost, doubled, half there, told as done when it was not, or refused unclearly.</summary>
    public static async Task<int> RunAsync(string[] words)
    {
        var names = words.Where(w => !w.StartsWith("--", StringComparison.Ordinal)).ToList();
        var unknown = names.Where(n => All.All(f => f.Name != n)).Concat(words.Where(w => w.StartsWith("--", StringComparison.Ordinal) && w is not ("--quick" or "--sqlite" or "--postgres")));
        if (unknown.Any())
        {
            await Console.Error.WriteLineAsync($"Usage: dotnet run -c Release --project tests/Tankside.Load -- {Command} [{string.Join("|", All.Select(f => f.Name))} ...] [--quick] [--sqlite|--postgres]");
            return 2;
        }

        var kinds = words.Contains("--sqlite") ? [DatabaseKind.Sqlite] : words.Contains("--postgres") ? [DatabaseKind.PostgreSQL] : Both;
        if (kinds.Contains(DatabaseKind.PostgreSQL) && PostgresServer.WhyUnavailable is { } why)
        {
            await Console.Error.WriteLineAsync(why);
            return 1;
        }

        Console.WriteLine(Tally.Header);
        var bad = false;
        foreach (var fault in All.Where(f => names.Count == 0 || names.Contains(f.Name)))
        {
            foreach (var kind in kinds.Where(fault.Kinds.Contains))
            {
                foreach (var line in await fault.RunAsync(kind, words.Contains("--quick")))
                {
                    Console.WriteLine(line);
                    bad |= line.IsBad;
                }
            }
        }

        return bad ? 1 : 0;
    }
}
