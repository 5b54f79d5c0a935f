using System.Globalization;
using Tankside.Storage;

namespace Tankside.Load;

/// <summary>One side of one round.</summary>
/// <param name="Seconds">Time of one piece of work: a reading, a post, a sweep.</param>
/// <param name="Latencies">Milliseconds of each piece, where pieces were timed one by one.</param>
public sealed record Side(double Seconds, IReadOnlyList<double> Latencies)
{
    public Side(double seconds)
        : this(seconds, [])
    {
    }
}

/// <summary>The portal beside the bare thing, over all rounds.</summary>
public sealed class Comparison
{
    public const string Header =
        "| what | database | Tankside | bare | Tankside takes, median (min-max of rounds) |\n|---|---|---|---|---|";

    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    private readonly string what;
    private readonly DatabaseKind? kind;
    private readonly Func<double, string> say;
    private readonly List<(Side Portal, Side Bare)> rounds = [];

    private Comparison(string what, DatabaseKind? kind, Func<double, string> say)
    {
        this.what = what;
        this.kind = kind;
        this.say = say;
    }

    /// <summary>
    /// Runs both sides once to warm them, then round by round, the first of each round in turn: whatever else the machine does meanwhile
    /// meets both.
    /// </summary>
    /// <param name="kind">Null where no database takes part.</param>
    /// <param name="say">Words the seconds of one piece, as a rate or as they are.</param>
    public static async Task<Comparison> RunAsync(
        string what, DatabaseKind? kind, int rounds, Func<double, string> say, Func<Task<Side>> portal, Func<Task<Side>> bare)
    {
        var comparison = new Comparison(what, kind, say);
        await portal();
        await bare();
        for (var round = 0; round < rounds; round++)
        {
            if (round % 2 == 0)
            {
                var first = await portal();
                comparison.rounds.Add((first, await bare()));
            }
            else
            {
                var first = await bare();
                comparison.rounds.Add((await portal(), first));
            }
        }

        return comparison;
    }

    /// <summary>Of sides that were measured elsewhere.</summary>
    public static Comparison Of(string what, DatabaseKind? kind, Func<double, string> say, IEnumerable<(Side Portal, Side Bare)> rounds)
    {
        var comparison = new Comparison(what, kind, say);
        comparison.rounds.AddRange(rounds);
        return comparison;
    }

    public static string PerSecond(string noun, double seconds) => string.Create(Plain, $"{1 / seconds:#,0} {noun}/s");

    public static string AsSeconds(double seconds) => string.Create(Plain, $"{seconds:0.000} s");

    /// <summary>A row of the table.</summary>
    public override string ToString()
    {
        var ratios = rounds.Select(r => r.Portal.Seconds / r.Bare.Seconds).Order().ToList();
        return string.Create(
            Plain, $"| {what} | {NameOf(kind)} | {Cell(r => r.Portal)} | {Cell(r => r.Bare)} | {Median(ratios):0.0} x ({ratios[0]:0.0}-{ratios[^1]:0.0}) |");
    }

    private static string NameOf(DatabaseKind? kind) => kind switch
    {
        DatabaseKind.Sqlite => "SQLite",
        DatabaseKind.PostgreSQL => "PostgreSQL",
        null => "none",
    };

    private string Cell(Func<(Side Portal, Side Bare), Side> side)
    {
        var latencies = rounds.SelectMany(r => side(r).Latencies).Order().ToList();
        var times = latencies.Count == 0 ? ""
            : string.Create(Plain, $"; p50 {At(latencies, 0.5):0.0} ms, p99 {At(latencies, 0.99):0.0} ms");
        return say(Median([.. rounds.Select(r => side(r).Seconds).Order()])) + times;
    }

    private static double At(List<double> ascending, double share) => ascending[(int)((ascending.Count - 1) * share)];

    private static double Median(List<double> ascending) => ascending.Count % 2 == 1
        ? ascending[ascending.Count / 2]
        : (ascending[(ascending.Count / 2) - 1] + ascending[ascending.Count / 2]) / 2;
}
