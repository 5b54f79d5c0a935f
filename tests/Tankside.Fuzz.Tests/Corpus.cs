namespace Tankside.Fuzz.Tests;

/// <summary>The inputs that are kept: some of each kind, and one for each mistake that was found.</summary>
public static class Corpus
{
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "corpus");

    public static IReadOnlyList<string> FilesOf(Target target) =>
        Path.Combine(Folder, target.Name) is var folder && Directory.Exists(folder) ? [.. Directory.EnumerateFiles(folder).Order(StringComparer.Ordinal)] : [];
}

/// <summary>Where the next input of a parser comes from: made anew, or made of those that were worth keeping.</summary>
public sealed class Inputs
{
    private const int MostKept = 2_000;

    private readonly Target target;
    private readonly List<byte[]> pool;
    private readonly HashSet<string> kinds = new(StringComparer.Ordinal);

    public Inputs(Target target)
    {
        this.target = target;
        pool = [.. Corpus.FilesOf(target).Select(File.ReadAllBytes)];
        if (pool.Count == 0)
        {
            pool.Add([]);
        }
    }

    public byte[] Next(Dice dice)
    {
        var made = dice.OneIn(3);
        var input = made ? target.Make(dice) : dice.Of(pool);
        if (made && dice.OneIn(2))
        {
            return input;
        }

        return Zips.IsZip(input) && !dice.OneIn(4)
            ? Zips.Mutated(dice, input, target)
            : Mutations.Of(dice, input, pool, target.Words, target.LongestInput);
    }

    /// <summary>An input that was answered as none before is worth being built upon.</summary>
    public void Learn(byte[] input, string answer)
    {
        if (pool.Count < MostKept && kinds.Count < 10 * MostKept && kinds.Add(KindOf(answer)))
        {
            pool.Add(input);
        }
    }

    public int Kinds => kinds.Count;

    /// <summary>The answer without figures and without what was quoted.</summary>
    private static string KindOf(string answer)
    {
        var kind = new System.Text.StringBuilder();
        var quoted = false;
        foreach (var sign in answer)
        {
            quoted = sign switch { '“' => true, '”' => false, _ => quoted };
            if (!quoted && !char.IsDigit(sign) && kind.Length < 300)
            {
                kind.Append(sign);
            }
        }

        return kind.ToString();
    }
}
