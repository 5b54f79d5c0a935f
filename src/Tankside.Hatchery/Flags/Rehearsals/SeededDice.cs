namespace Tankside.Hatchery.Flags.Rehearsals;

/// <summary>
/// Chance that is the same for the same seed on every machine and in every version of the framework: a morning is stored as its seed alone
/// and has to come out the same years later. SplitMix64 (Steele, Lea and Flood 2014). Not for secrets.
/// </summary>
public sealed class SeededDice(int seed)
{
    private const ulong Step = 0x9E3779B97F4A7C15;

    private ulong state = (uint)seed;

    /// <summary>From 0 up to, never reaching, 1.</summary>
    public double Share() => (Next() >> 11) * (1.0 / (1UL << 53));

    public bool Chance(double probability) => Share() < probability;

    /// <summary>A whole number, both ends included.</summary>
    public int Between(int least, int most) => least + (int)(Share() * (most - least + 1));

    public T Pick<T>(IReadOnlyList<T> from) => from[Between(0, from.Count - 1)];

    /// <summary>All of them in an order of chance.</summary>
    public List<T> Shuffled<T>(IEnumerable<T> from)
    {
        var list = from.ToList();
        for (var i = list.Count - 1; i > 0; i--)
        {
            var j = Between(0, i);
            (list[i], list[j]) = (list[j], list[i]);
        }

        return list;
    }

    private ulong Next()
    {
        unchecked
        {
            state += Step;
            var z = state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }
}
