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
    public static bool Has(string words, string wanted) => Has(words.Split(' '), wanted.Split(' '));

    public static bool Has(string[] words, string[] wants)
    {
        var found = 0;
        foreach (var word in words)
        {
            var want = wants[found];
            if (want.EndsWith('*') ? word.StartsWith(want[..^1], StringComparison.Ordinal) : word == want)
            {
                found++;
                if (found == wants.Length)
                {
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>The text, with a mark for each sign that Unicode has none for: .NET refuses to normalise those.</summary>
    public static string Sound(string text) => text.AsSpan().ContainsAnyInRange('\uD800', '\uDFFF') || text.Contains('\uFFFE', StringComparison.Ordinal)
        ? string.Concat(text.EnumerateRunes()).Replace('\uFFFE', '\uFFFD')
        : text;

    [GeneratedRegex("([a-z]{2})([A-Z])")]
    private static partial Regex CamelCase();
}
