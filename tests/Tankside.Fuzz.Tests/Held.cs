namespace Tankside.Fuzz.Tests;

/// <summary>What has to hold, said so that a finding can be read.</summary>
public static class Held
{
    public static void That(bool holds, string what)
    {
        if (!holds)
        {
            throw new BrokenException(what);
        }
    }

    /// <summary>What was taken can be stored by both databases: PostgreSQL takes neither a NUL nor half of a surrogate pair.</summary>
    public static void Storable(string? text, string what)
    {
        if (text is null)
        {
            return;
        }

        That(!text.Contains('\0', StringComparison.Ordinal), $"{what} was taken with a NUL in it, which PostgreSQL refuses.");
        for (var i = 0; i < text.Length; i++)
        {
            var pair = char.IsHighSurrogate(text[i]) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1]);
            That(pair || !char.IsSurrogate(text[i]), $"{what} was taken with half of a surrogate pair in it, which no database takes.");
            i += pair ? 1 : 0;
        }
    }

    /// <summary>A refusal says something.</summary>
    public static void Said(IEnumerable<string> messages)
    {
        foreach (var message in messages)
        {
            That(!string.IsNullOrWhiteSpace(message), "It was refused without a word.");
        }
    }
}
