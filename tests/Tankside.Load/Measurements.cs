using Tankside.Load.Drill;
using Tankside.Storage;

namespace Tankside.Load;

/// <summary>One thing that can be measured.</summary>
/// <param name="Name">What it is called on the command line.</param>
/// <param name="Kinds">Databases it is measured on; none where no database takes part.</param>
/// <param name="RunAsync">Measures on a database, a lot or, to see that it works, a little; what it gives is printed.</param>
public sealed record Measurement(string Name, IReadOnlyList<DatabaseKind> Kinds, Func<DatabaseKind, bool, Task<object>> RunAsync)
{
    /// <summary>False for what takes too long, or is no comparison.</summary>
    public bool IsOfWholeRun { get; init; } = true;
}

/// <summary>Everything that is measured, in the order of the printed table.</summary>
public static class Measurements
{
    private static readonly DatabaseKind[] Both = Enum.GetValues<DatabaseKind>(), Postgres = [DatabaseKind.PostgreSQL];

    public static IReadOnlyList<Measurement> All { get; } =
    [
        new("development", [], (_, quick) => Task.FromResult<object>(DevelopmentSum.Measure(quick))),
        new("planner", [], async (_, quick) => await Planning.MeasureAsync(quick)),
        new("false-alarms", [], (_, quick) => Task.FromResult<object>(FalseAlarms.Tell(quick))) { IsOfWholeRun = false },
        new("intake", Postgres, async (_, quick) => await ApiIntake.MeasureAsync(quick)),
        new("simulate", Both, async (kind, quick) => await Simulating.MeasureAsync(kind, quick)),
        new("reading", Both, async (kind, quick) => await ApiReading.MeasureAsync(kind, quick)),
        new("form-alone", Both, async (kind, quick) => await ClassForm.MeasureAsync(kind, 1, quick)),
        new("form", Both, async (kind, quick) => await ClassForm.MeasureAsync(kind, 64, quick)),
        new("morning", Both, async (kind, quick) => await SchoolMorning.MeasureAsync(kind, quick)),
        new("judge", Both, async (kind, quick) => await Judging.MeasureAsync(kind, quick)),
        new("judge-growth", Both, async (kind, quick) => await Judging.GrowthAsync(kind, quick)),
        new("judge-country", Postgres, async (kind, quick) => await Judging.CountryAsync(kind, quick)) { IsOfWholeRun = false },
        new("round", Both, async (kind, quick) => await PageOpening.RoundAsync(kind, quick)),
        new("tank", Both, async (kind, quick) => await PageOpening.TankAsync(kind, quick)),
        new("compiled", Both, async (kind, quick) => string.Join(Environment.NewLine, await CompiledQueries.MeasureAsync(kind, quick))),
        new("plans", Postgres, async (_, quick) => await Plans.TellAsync(quick)) { IsOfWholeRun = false },
        new("nodes", Postgres, async (_, quick) => await NodesAtShare.MeasureAsync(quick)) { IsOfWholeRun = false },
        new("drill", Postgres, async (_, quick) => await FailoverDrill.RunAsync(quick)) { IsOfWholeRun = false },
        new("start", Both, async (kind, quick) => await StartAndMemory.StartAsync(kind, quick)) { IsOfWholeRun = false },
        new("memory", Both, StartAndMemory.MemoryAsync) { IsOfWholeRun = false },
        new("totals", Postgres, async (_, quick) => await TotalsFile.MeasureAsync(quick)),
    ];
}
