using System.Collections.Concurrent;
using System.Diagnostics;

namespace Tankside.Load.Drill;

/// <summary>Who asked.</summary>
public enum Sender
{
    Logger,
    Class,
    Person,
}

/// <summary>One thing that somebody wanted done, until it was.</summary>
/// <param name="From">When it was begun; timestamps of the stopwatch.</param>
/// <param name="Done">When it was answered well.</param>
/// <param name="Refused">When it was answered otherwise, or not at all.</param>
public sealed record Wanted(Sender By, long From, long Done, IReadOnlyList<long> Refused);

/// <summary>What became of everything, written down while it happens.</summary>
public sealed class Answers
{
    private readonly ConcurrentQueue<Wanted> wanted = new();
    private readonly ConcurrentQueue<(string What, long At)> events = new();

    /// <summary>Ids of readings that were answered as stored.</summary>
    public ConcurrentQueue<Guid> Accepted { get; } = new();

    /// <summary>Ids of readings that were sent at least once.</summary>
    public ConcurrentQueue<Guid> Begun { get; } = new();

    /// <summary>When a reading was taken, of those that say it themselves.</summary>
    public ConcurrentDictionary<Guid, DateTime> ReadAt { get; } = new();

    /// <summary>What was said in refusing, and how often.</summary>
    public ConcurrentDictionary<string, int> Refusals { get; } = new();

    /// <summary>How many things were done so far.</summary>
    public int Count => wanted.Count;

    /// <summary>The longest that somebody waited until something was done, tries included.</summary>
    public TimeSpan LongestWait => wanted.Select(w => Stopwatch.GetElapsedTime(w.From, w.Done)).DefaultIfEmpty().Max();

    public void Happens(string what) => events.Enqueue((what, Stopwatch.GetTimestamp()));

    public void Add(Wanted one) => wanted.Enqueue(one);

    /// <summary>A row for each event and kind of sender; what waited counts with the event in which it was answered.</summary>
    public IEnumerable<string> Rows()
    {
        var all = wanted.ToList();
        var list = events.ToList();
        for (var i = 0; i < list.Count; i++)
        {
            var (from, to) = (list[i].At, i + 1 < list.Count ? list[i + 1].At : long.MaxValue);
            foreach (var kind in Enum.GetValues<Sender>())
            {
                var here = all.Where(w => w.By == kind && w.Done >= from && w.Done < to).ToList();
                var done = here.Select(w => w.Done).Order().ToList();
                var refused = all.Where(w => w.By == kind).Sum(w => w.Refused.Count(r => r >= from && r < to));
                yield return string.Create(
                    System.Globalization.CultureInfo.InvariantCulture,
                    $"| {list[i].What} | {NameOf(kind)} | {done.Count} | {refused} | {Gap(from, done):0.0} s | {here.Select(w => Seconds(w.From, w.Done)).DefaultIfEmpty().Max():0.0} s | {here.Select(w => 1 + w.Refused.Count).DefaultIfEmpty().Max()} |");
            }
        }
    }

    /// <summary>The longest time in which nobody of a kind was answered well.</summary>
    private static double Gap(long from, List<long> done) =>
        done.Prepend(from).Zip(done, Seconds).DefaultIfEmpty().Max();

    private static double Seconds(long from, long to) => Stopwatch.GetElapsedTime(from, to).TotalSeconds;

    private static string NameOf(Sender kind) => kind switch { Sender.Logger => "loggers", Sender.Class => "classes", Sender.Person => "people" };
}
