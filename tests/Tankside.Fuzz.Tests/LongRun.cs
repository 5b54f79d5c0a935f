using System.Diagnostics;
using System.Globalization;
using CsCheck;

namespace Tankside.Fuzz.Tests;

/// <summary>Throws inputs at every parser for as long as it is told to, keeps what goes wrong, and prints a table.</summary>
public static class LongRun
{
    /// <summary>A case of a few thousand bytes takes far below a second, on a busy machine some; one that takes this long hangs.</summary>
    private static readonly TimeSpan LongestCase = TimeSpan.FromMinutes(3);

    private static readonly TimeSpan Turn = TimeSpan.FromSeconds(10);

    private const int MostFindings = 20;

    private static long caseBegan = long.MaxValue;

    private sealed class Tally(Target target)
    {
        public Target Target { get; } = target;

        public Inputs Inputs { get; } = new(target);

        public long Cases { get; set; }

        public TimeSpan Took { get; set; }

        public Dictionary<string, Finding> Findings { get; } = new(StringComparer.Ordinal);
    }

    public static int Run(TimeSpan time, IReadOnlyList<Target> targets, string into)
    {
        Directory.CreateDirectory(into);
        var tallies = targets.Select(t => new Tally(t)).ToList();
        tallies.ForEach(t => Trial.Of(t.Target, [], out _)); // What is opened once, a portal and its database, is no case.
        var all = Stopwatch.StartNew();
        using var watch = new Timer(_ => StopWhatHangs(into), null, LongestCase, TimeSpan.FromSeconds(5));
        foreach (var tally in tallies)
        {
            RunKept(tally, into);
        }

        while (all.Elapsed < time)
        {
            foreach (var tally in tallies)
            {
                var left = time - all.Elapsed;
                var turn = TimeSpan.FromTicks(Math.Min(Turn.Ticks, time.Ticks / tallies.Count));
                RunFor(tally, left < turn ? left : turn, into);
            }
        }

        return Print(tallies, all.Elapsed, into);
    }

    private static void RunKept(Tally tally, string into)
    {
        foreach (var file in Corpus.FilesOf(tally.Target))
        {
            Try(tally, File.ReadAllBytes(file), $"corpus file {Path.GetFileName(file)}", into);
        }
    }

    private static void RunFor(Tally tally, TimeSpan time, string into)
    {
        var took = Stopwatch.StartNew();
        while (took.Elapsed < time && tally.Findings.Count < MostFindings)
        {
            var dice = new Dice(new PCG((uint)Random.Shared.Next(), (ulong)Random.Shared.NextInt64()));
            Try(tally, tally.Inputs.Next(dice), $"seed {dice.Seed}", into);
        }

        tally.Took += took.Elapsed;
    }

    private static void Try(Tally tally, byte[] input, string from, string into)
    {
        // A parser may bring the whole process down; then this file is what it was given.
        File.WriteAllBytes(Path.Combine(into, $"{tally.Target.Name}.last"), input);
        Interlocked.Exchange(ref caseBegan, Stopwatch.GetTimestamp());
        var found = Trial.Of(tally.Target, input, out var answer);
        Interlocked.Exchange(ref caseBegan, long.MaxValue);
        tally.Cases++;
        if (found is null)
        {
            tally.Inputs.Learn(input, answer);
            return;
        }

        if (tally.Findings.ContainsKey(Trial.HeadOf(found)))
        {
            return;
        }

        var small = Trial.Smaller(tally.Target, found);
        tally.Findings[Trial.HeadOf(found)] = small;
        var file = Path.Combine(into, $"{tally.Target.Name}-{tally.Findings.Count}");
        File.WriteAllBytes(file, small.Input);
        File.WriteAllText(file + ".txt", $"{from}\n{small.What}\n");
        Console.WriteLine($"{tally.Target.Name}: {small.What.Split('\n')[0]}\n  {from}, input in {file} ({small.Input.Length} bytes)");
    }

    private static void StopWhatHangs(string into)
    {
        var began = Interlocked.Read(ref caseBegan);
        if (began != long.MaxValue && Stopwatch.GetElapsedTime(began) > LongestCase)
        {
            Console.Error.WriteLine($"A case has taken more than {LongestCase.TotalMinutes} minutes. Its input is the newest file in {into} that ends in .last.");
            Environment.Exit(1);
        }
    }

    private static int Print(List<Tally> tallies, TimeSpan took, string into)
    {
        Console.WriteLine("| parser | cases | a second | kinds of answers | findings |\n|---|---|---|---|---|");
        foreach (var tally in tallies)
        {
            File.Delete(Path.Combine(into, $"{tally.Target.Name}.last"));
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {tally.Target.Name} | {tally.Cases:#,0} | {tally.Cases / Math.Max(0.001, tally.Took.TotalSeconds):#,0} | {tally.Inputs.Kinds:#,0} | {tally.Findings.Count} |"));
        }

        var findings = tallies.Sum(t => t.Findings.Count);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{tallies.Sum(t => t.Cases):#,0} cases in {took:hh\\:mm\\:ss}, {findings} findings{(findings > 0 ? $", kept in {into}" : "")}."));
        return findings == 0 ? 0 : 1;
    }
}
