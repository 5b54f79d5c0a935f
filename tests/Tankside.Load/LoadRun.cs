using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>What was asked for on the command line.</summary>
/// <param name="Quick">Fewer rounds on less data, to see that it works.</param>
/// <param name="Forms">Only what classes do: their form beside the bare one, and the morning on which all of them send.</param>
/// <param name="FalseAlarms">No database at all: how often the rules are wrong, over made-up seasons.</param>
/// <param name="Planner">No database at all: set-points planned for a whole programme.</param>
public sealed record Asked(IReadOnlyList<DatabaseKind> Kinds, bool Quick, bool Forms, bool FalseAlarms, bool Planner)
{
    /// <summary>Null when a word is not known.</summary>
    public static Asked? Parse(string[] words)
    {
        DatabaseKind[]? kinds = null;
        var (quick, forms, falseAlarms, planner) = (false, false, false, false);
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
                    kinds = null;
                    break;
                case "--forms":
                    forms = true;
                    break;
                case "--false-alarms":
                    falseAlarms = true;
                    break;
                case "--planner":
                    planner = true;
                    break;
                case "--quick":
                    quick = true;
                    break;
                default:
                    return null;
            }
        }

        return new Asked(kinds ?? Enum.GetValues<DatabaseKind>(), quick, forms, falseAlarms, planner);
    }
}

/// <summary>
/// Measures what the portal costs over the bare thing underneath it: each measurement beside its bare counterpart, in rounds that take
/// turns, in one run. It asserts nothing. The table it prints goes into docs/performance.md.
/// </summary>
public static class LoadRun
{
    public static async Task<int> Main(string[] args)
    {
        if (Asked.Parse(args) is not { } asked)
        {
            await Console.Error.WriteLineAsync("Usage: dotnet run -c Release --project tests/Tankside.Load [-- --sqlite|--postgres|--all] [--forms|--false-alarms|--planner] [--quick]");
            return 2;
        }

        if (asked.FalseAlarms)
        {
            FalseAlarms.Print(asked.Quick);
            return 0;
        }

        if (asked.Planner)
        {
            Planning.Print(asked.Quick);
            return 0;
        }

        if (asked.Kinds.Contains(DatabaseKind.PostgreSQL) && PostgresServer.WhyUnavailable is { } why)
        {
            await Console.Error.WriteLineAsync(why);
            return 1;
        }

        // The test host looks there for where the portal's pages and styles lie.
        Environment.CurrentDirectory = AppContext.BaseDirectory;
        Console.WriteLine(Comparison.Header);
        if (!asked.Forms)
        {
            Console.WriteLine(await DevelopmentSum.MeasureAsync(asked.Quick));
        }

        foreach (var kind in asked.Kinds)
        {
            if (kind == DatabaseKind.PostgreSQL && !asked.Forms)
            {
                Console.WriteLine(await ApiIntake.MeasureAsync(asked.Quick));
            }

            foreach (var clients in new[] { 1, 64 })
            {
                Console.WriteLine(await ClassForm.MeasureAsync(kind, clients, asked.Quick));
            }

            if (asked.Forms)
            {
                Console.WriteLine(await SchoolMorning.MeasureAsync(kind, asked.Quick));
                continue;
            }

            Console.WriteLine(await Judging.MeasureAsync(kind, asked.Quick));
            Console.WriteLine(await RoundOpening.MeasureAsync(kind, asked.Quick));
        }

        return 0;
    }
}
