using System.Collections.Concurrent;
using System.Globalization;
using Tankside.Storage;

namespace Tankside.Load.Faults;

/// <summary>What became of everything that was sent in one fault: a line of the table.</summary>
public sealed class Tally(string fault, DatabaseKind database)
{
    private readonly ConcurrentDictionary<string, int> said = new();
    private readonly ConcurrentQueue<string> wrong = new();
    private int stored, cut, refused, unclear, lost, doubled, half;
    private long longest;

    public const string Header = """
        | fault | database | answered as stored | lost | doubled | half there | not answered | refused clearly | refused unclearly | longest wait | what was seen |
        |---|---|---|---|---|---|---|---|---|---|---|
        """;

    /// <summary>Something was lost, doubled, half there or told as done when it was not, or a refusal did not say what became of what was sent.</summary>
    public bool IsBad => lost + doubled + half + unclear > 0 || !wrong.IsEmpty;

    public DatabaseKind Database => database;

    /// <summary>How many were answered as stored.</summary>
    public int Stored => stored;

    public void Answered(Said answer, TimeSpan waited)
    {
        Waited(waited);
        if (answer.IsStored)
        {
            Interlocked.Increment(ref stored);
            return;
        }

        Interlocked.Increment(ref answer.IsClear ? ref refused : ref unclear);
        Saw(answer.Words);
    }

    public void StoredMany(int count) => Interlocked.Add(ref stored, count);

    /// <summary>What somebody who went on trying was answered, counted.</summary>
    /// <param name="words">Of whom, and the status or the name of the exception.</param>
    public void Refused(string words, int count)
    {
        Interlocked.Add(ref words.EndsWith("503", StringComparison.Ordinal) ? ref refused : ref words.Contains(": 5", StringComparison.Ordinal) ? ref unclear : ref cut, count);
        said.AddOrUpdate(words, count, (_, n) => n + count);
    }

    public void LostMany(int count) => Interlocked.Add(ref lost, count);

    public void DoubledMany(int count) => Interlocked.Add(ref doubled, count);

    /// <summary>The line was cut before an answer.</summary>
    public void Cut() => Interlocked.Increment(ref cut);

    /// <summary>What a person sees, counted.</summary>
    public void Saw(string words) => said.AddOrUpdate(words, 1, (_, n) => n + 1);

    public void Waited(TimeSpan time)
    {
        for (var before = Volatile.Read(ref longest); time.Ticks > before; before = Volatile.Read(ref longest))
        {
            Interlocked.CompareExchange(ref longest, time.Ticks, before);
        }
    }

    /// <summary>Compares what stands in the database with what was told.</summary>
    /// <param name="told">It was answered as stored.</param>
    public void Found(Stands stands, bool told)
    {
        switch (stands)
        {
            case Stands.NotThere when told:
                Interlocked.Increment(ref lost);
                break;
            case Stands.Half:
                Interlocked.Increment(ref half);
                break;
            case Stands.Twice:
                Interlocked.Increment(ref doubled);
                break;
        }
    }

    /// <summary>Something that fits no column and must not be.</summary>
    public void Wrong(string what) => wrong.Enqueue(what);

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"| {fault} | {database} | {stored} | {lost} | {doubled} | {half} | {cut} | {refused} | {unclear} | {TimeSpan.FromTicks(longest).TotalSeconds:0.0} s | {Seen()} |");

    private string Seen() => string.Join("; ", [.. wrong.Distinct().Select(w => $"**{w}**"), .. said.OrderBy(s => s.Key, StringComparer.Ordinal).Select(s => $"{s.Key} ({s.Value})")]);
}
