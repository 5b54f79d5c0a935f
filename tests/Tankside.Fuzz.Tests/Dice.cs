using CsCheck;

namespace Tankside.Fuzz.Tests;

/// <summary>Everything random of one case, from one seed: the same seed throws the same again.</summary>
public sealed class Dice(PCG pcg)
{
    /// <summary>As the run prints it, to be thrown again.</summary>
    public string Seed { get; } = pcg.ToString();

    public static Dice Again(string seed) => new(PCG.Parse(seed));

    /// <summary>From 0 to below <paramref name="most"/>.</summary>
    public int Below(int most) => most <= 1 ? 0 : (int)pcg.Next((uint)most);

    public int Between(int least, int most) => least + Below(most - least + 1);

    public bool OneIn(int many) => Below(many) == 0;

    public T Of<T>(IReadOnlyList<T> things) => things[Below(things.Count)];

    public T Of<T>(Gen<T> gen) => gen.Generate(pcg, null!, out _);

    public byte Byte() => (byte)Below(256);
}
