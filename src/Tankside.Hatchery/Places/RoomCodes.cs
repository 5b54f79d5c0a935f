namespace Tankside.Hatchery.Places;

/// <summary>The shape of a room code: twelve signs of a 28-letter alphabet, a little under 58 bits.</summary>
public static class RoomCodes
{
    /// <summary>No vowels, so that no word appears; no 0, 1, o, l or i, so that none is misread from a label.</summary>
    public const string Alphabet = "23456789bcdfghjkmnpqrstvwxyz";

    public const int Length = 12;

    /// <summary>Bits of secret in a code: log2(28^12), about 57.7.</summary>
    public static double Bits => Length * Math.Log2(Alphabet.Length);

    /// <summary>Makes a code from <see cref="Length"/> random numbers, one a sign.</summary>
    /// <param name="letterAt">A uniformly random index below the given bound.</param>
    public static string Make(Func<int, int> letterAt) =>
        string.Create(Length, letterAt, (span, next) =>
        {
            for (var i = 0; i < span.Length; i++)
            {
                span[i] = Alphabet[next(Alphabet.Length)];
            }
        });

    /// <summary>In groups of four, as it is printed; typed so, it is the same code.</summary>
    public static string Grouped(string code) => string.Join('-', code.Chunk(4).Select(group => new string(group)));

    /// <summary>What a person typed from a label: spaces, dashes and capitals do not matter.</summary>
    public static string Normalise(string typed) =>
        string.Concat(typed.Where(char.IsLetterOrDigit)).ToLowerInvariant();
}
