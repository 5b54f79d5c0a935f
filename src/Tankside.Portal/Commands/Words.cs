namespace Tankside.Portal.Commands;

/// <summary>Options of a command: pairs of a name and a value, each at most once.</summary>
public sealed class Words
{
    private readonly Dictionary<string, string> values = new(StringComparer.Ordinal);

    /// <summary>Null when the words are not pairs, or name an option that the command does not know.</summary>
    public static Words? Parse(string[] words, params ReadOnlySpan<string> known)
    {
        var result = new Words();
        for (var i = 0; i < words.Length; i += 2)
        {
            if (i + 1 >= words.Length || !known.Contains(words[i]) || !result.values.TryAdd(words[i], words[i + 1]))
            {
                return null;
            }
        }

        return result;
    }

    public string? this[string name] => values.GetValueOrDefault(name);
}
