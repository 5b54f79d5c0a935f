using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>Headings and names as people write them, made alike.</summary>
public static partial class Headings
{
    /// <summary>Lower case, without accents, signs as spaces, a degree sign as none: "Temp., °F" is "temp f".</summary>
    public static string Plain(string text)
    {
        var plain = new StringBuilder();
        foreach (var sign in CamelCase().Replace(Sound(text), "$1 $2").Normalize(NormalizationForm.FormD))
        {
            if (char.IsLetterOrDigit(sign))
            {
                plain.Append(char.ToLowerInvariant(sign));
            }
            else if (CharUnicodeInfo.GetUnicodeCategory(sign) != UnicodeCategory.NonSpacingMark && plain.Length > 0 && plain[^1] != ' ')
            {
                plain.Append(' ');
            }
        }

        return plain.ToString().Trim();
    }

    /// <summary>True when the words of <paramref name="wanted"/> stand in the heading in their order, whatever stands between.</summary>
    /// <remarks>It is asked some hundred times for each cell in which a heading may stand, and claims no memory.</remarks>
    public static bool Has(ReadOnlySpan<char> words, ReadOnlySpan<char> wanted)
    {
        var wants = wanted.Split(' ');
        var open = wants.MoveNext();
        foreach (var word in words.Split(' '))
        {
            var want = wanted[wants.Current];
            if (want.EndsWith('*') ? words[word].StartsWith(want[..^1], StringComparison.Ordinal) : words[word].SequenceEqual(want))
            {
                open = wants.MoveNext();
                if (!open)
                {
                    return true;
                }
            }
        }

        return !open;
    }

    /// <summary>The text, with a mark for each sign that Unicode has none for: .NET refuses to normalise those.</summary>
    public static string Sound(string text) => text.AsSpan().ContainsAnyInRange('\uD800', '\uDFFF') || text.Contains('\uFFFE', StringComparison.Ordinal)
        ? string.Concat(text.EnumerateRunes()).Replace('\uFFFE', '\uFFFD')
        : text;

    [GeneratedRegex("([a-z]{2})([A-Z])")]
    private static partial Regex CamelCase();
}
