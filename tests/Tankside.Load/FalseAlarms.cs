using System.Diagnostics;
using System.Globalization;
using Tankside.Hatchery.Flags;
using Tankside.Load.Seasons;

namespace Tankside.Load;

/// <summary>How often the rules are wrong, and how soon they are right, over seasons made up from a fixed seed. The tables go into docs/science/losses.md.</summary>
public static class FalseAlarms
{
    private const int Seed = 20271103;

    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    /// <summary>The tables, as text.</summary>
    public static string Tell(bool quick)
    {
        var watch = Stopwatch.StartNew();
        DieOffs(quick ? 50 : 1000);
        Shared(quick ? 40 : 1000);
        return string.Create(Plain, $"{watch.Elapsed.TotalSeconds:0} s");
    }

    private static void DieOffs(int lots)
    {
        var limits = LimitSet.Defaults;
        Say($"Die-off, {lots * DieOffSeasons.Lot} tank-seasons a row. False alarms a tank-season:");
        Say($"| losses | many at once | slow rise | together |\n|---|---|---|---|");
        foreach (var (name, model) in Models)
        {
            var (atOnce, rising) = DieOffSeasons.FalseAlarms(model, limits, lots, Seed);
            Say($"| {name} | {atOnce:0.0000} | {rising:0.0000} | {atOnce + rising:0.0000} |");
        }

        Say($"\n| losses from a day on | noticed in the season | days, median | days, 90% |\n|---|---|---|---|");
        foreach (var times in new[] { 2.0, 3, 10 })
        {
            var n = DieOffSeasons.Notices(new SeasonModel(), limits, times, lots, Seed);
            Say($"| {times:0} times | {n.Noticed:0%} | {n.Median?.ToString(Plain) ?? "not"} | {n.Ninety?.ToString(Plain) ?? "not"} |");
        }
    }

    private static void Shared(int seasons)
    {
        var limits = LimitSet.Defaults;
        Say($"\nShared causes with none there, {seasons} programme-seasons a row:");
        Say($"| tanks | seasons with a false one | false ones a season | by |\n|---|---|---|---|");
        foreach (var tanks in new[] { 8, 48, 200 })
        {
            var w = SharedSeasons.FalseAlarms(new SeasonModel(), limits, tanks, seasons, Seed);
            Say($"| {tanks} | {w.Wrong:0.0%} | {w.Flags:0.000} | {string.Join(", ", w.By.OrderBy(b => b.Key).Select(b => $"{b.Key} {b.Value}"))} |");
        }

        Say($"\n| tanks | in a lot | named | days, median | days, 90% |\n|---|---|---|---|---|");
        foreach (var (tanks, dying, share, over) in new[] { (8, 3, 0.2, 1), (8, 3, 0.2, 4), (48, 3, 0.2, 1), (48, 3, 0.2, 4), (48, 8, 0.1, 5), (200, 3, 0.2, 4) })
        {
            var f = SharedSeasons.Finds(new SeasonModel(), limits, tanks, dying, share, over, Math.Max(20, seasons / 5), Seed);
            Say($"| {tanks} | {f.What} | {f.Named:0%} | {f.Median?.ToString(Plain) ?? "not"} | {f.Ninety?.ToString(Plain) ?? "not"} |");
        }
    }

    /// <summary>The model, and what the rule does not expect.</summary>
    private static (string Name, SeasonModel Model)[] Models =>
    [
        ("as modelled", new SeasonModel()),
        ("wider between tanks (shape 0.8)", new SeasonModel { Shape = 0.8 }),
        ("half as high", new SeasonModel { PerFishDay = 0.001 }),
        ("hatch five times as bad", new SeasonModel { HatchTimes = 5 }),
        ("hatch day known to 4 days only", new SeasonModel { HatchError = 4 }),
        ("half of the days counted", new SeasonModel { Counted = 0.5 }),
    ];

    private static void Say(FormattableString line) => Console.WriteLine(line.ToString(Plain));
}
