namespace Tankside.Fuzz.Tests;

/// <summary>Something that does not hold of a parser.</summary>
public sealed class BrokenException(string what) : Exception(what);

/// <summary>One parser of what comes from outside.</summary>
/// <param name="Name">Of its folder in the corpus too.</param>
/// <param name="Make">An input made to look like what the parser reads.</param>
/// <param name="Read">
/// Has it read and checks what came of it. The answer tells what was understood or why it was refused; the same input must give the same.
/// </param>
public sealed record Target(string Name, Func<Dice, byte[]> Make, Func<byte[], string> Read)
{
    /// <summary>What is set up once, in bytes: tables, buffers, a packed file's windows.</summary>
    public long MostBytesOnce { get; init; } = 4 << 20;

    /// <summary>How many bytes may be claimed for each byte that came. What is read again and again grows faster than its input and is found by this.</summary>
    public long MostBytesEach { get; init; } = 1_500;

    /// <summary>Words of its language, to be thrown into inputs.</summary>
    public IReadOnlyList<string> Words { get; init; } = [];

    /// <summary>New inputs in each build; fewer where each costs more.</summary>
    public int Slice { get; init; } = 250;

    /// <summary>Mutated inputs are cut to this.</summary>
    public int LongestInput { get; init; } = 100_000;

    public override string ToString() => Name;
}

/// <summary>What was found: an input, and what is wrong with how it is read.</summary>
public sealed record Finding(byte[] Input, string What);

/// <summary>One input given to one parser.</summary>
public static class Trial
{
    /// <summary>Null when all holds.</summary>
    public static Finding? Of(Target target, byte[] input, out string answer)
    {
        answer = "";
        try
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            answer = target.Read(input);
            var claimed = GC.GetAllocatedBytesForCurrentThread() - before;
            var most = target.MostBytesOnce + (target.MostBytesEach * input.Length);
            return claimed > most ? new Finding(input, $"It claimed {claimed:#,0} bytes of memory for {input.Length:#,0} of input; at most {most:#,0} were expected.")
                : target.Read(input) is var again && again != answer ? new Finding(input, $"The same input was answered “{Cut(answer)}” and then “{Cut(again)}”.")
                : null;
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            return new Finding(input, e is BrokenException ? e.Message : e.ToString());
        }
    }

    /// <summary>Cuts away what does not matter, as long as the same goes wrong.</summary>
    public static Finding Smaller(Target target, Finding found, int tries = 2_000)
    {
        var (best, same) = (found, HeadOf(found));
        for (var piece = Math.Max(1, best.Input.Length / 2); piece >= 1; piece /= 2)
        {
            for (var at = 0; at < best.Input.Length && tries > 0;)
            {
                tries--;
                byte[] shorter = [.. best.Input.AsSpan(0, at), .. best.Input.AsSpan(Math.Min(best.Input.Length, at + piece))];
                if (Of(target, shorter, out _) is { } still && HeadOf(still) == same)
                {
                    best = still;
                }
                else
                {
                    at += piece;
                }
            }
        }

        return best;
    }

    /// <summary>What went wrong, without its figures: two findings with one head are one mistake.</summary>
    public static string HeadOf(Finding found)
    {
        var lines = found.What.Split('\n');
        var own = Array.Find(lines, l => l.Contains("Tankside.", StringComparison.Ordinal) && l.TrimStart().StartsWith("at ", StringComparison.Ordinal)) ?? "";
        return new string([.. $"{lines[0].Split(['“', ':'])[0]}{own.Split(" in ")[0]}".Where(c => !char.IsDigit(c) && c != ',')]);
    }

    private static string Cut(string text) => text.Length <= 200 ? text : text[..200] + "…";
}
