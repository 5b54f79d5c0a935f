using Tankside.Load.Faults;
using Tankside.Load.Soak;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>What was asked for on the command line.</summary>
/// <param name="Quick">Fewer rounds on less data, to see that it works.</param>
/// <param name="Only">Names of measurements; empty for all that a whole run has.</param>
public sealed record Asked(IReadOnlyList<DatabaseKind> Kinds, bool Quick, IReadOnlyList<string> Only)
{
    /// <summary>Null when a word is not known.</summary>
    public static Asked? Parse(string[] words)
    {
        IReadOnlyList<DatabaseKind> kinds = Enum.GetValues<DatabaseKind>();
        var quick = false;
        var only = new List<string>();
        foreach (var word in words)
        {
            switch (word)
            {
                case "--sqlite":
                    kinds = [DatabaseKind.Sqlite];
                    break;
                case "--postgres":
                    kinds = [DatabaseKind.PostgreSQL];
                    break;
                case "--all":
                    kinds = Enum.GetValues<DatabaseKind>();
                    break;
                case "--quick":
                    quick = true;
                    break;
                case var name when Measurements.All.Any(m => m.Name == name):
                    only.Add(name);
                    break;
                default:
                    return null;
            }
        }

        return new Asked(kinds, quick, only);
    }
}

/// <summary>
/// Measures what the portal costs over the bare thing underneath it: each measurement beside its bare counterpart, in rounds that take
/// turns, in one run. It asserts nothing. The tables it prints go into docs/performance.md.
/// </summary>
public static class LoadRun
{
    public static async Task<int> Main(string[] args)
    {
        if (args is [FaultRun.Command, ..])
        {
            return await FaultRun.RunAsync(args[1..]);
        }

        if (args is [SoakRun.Command, ..])
        {
            return await SoakRun.RunAsync(args[1..]);
        }

        if (Asked.Parse(args) is not { } asked)
        {
            await Console.Error.WriteLineAsync(
                $"Usage: dotnet run -c Release --project tests/Tankside.Load [-- --sqlite|--postgres|--all] [--quick] [{string.Join("|", Measurements.All.Select(m => m.Name))} ...]");
            return 2;
        }

        var chosen = Measurements.All.Where(m => asked.Only.Count == 0 ? m.IsOfWholeRun : asked.Only.Contains(m.Name)).ToList();
        var kinds = asked.Kinds.Where(k => chosen.Any(m => m.Kinds.Contains(k))).ToList();
        if (kinds.Contains(DatabaseKind.PostgreSQL) && PostgresServer.WhyUnavailable is { } why)
        {
            await Console.Error.WriteLineAsync(why);
            return 1;
        }

        // The test host looks there for where the portal's pages and styles lie.
        Environment.CurrentDirectory = AppContext.BaseDirectory;
        Console.WriteLine(Comparison.Header);
        foreach (var measurement in chosen.Where(m => m.Kinds.Count == 0))
        {
            Console.WriteLine(await measurement.RunAsync(default, asked.Quick));
        }

        foreach (var kind in kinds)
        {
            foreach (var measurement in chosen.Where(m => m.Kinds.Contains(kind)))
            {
                Console.WriteLine(await measurement.RunAsync(kind, asked.Quick));
            }
        }

        return 0;
    }
}
