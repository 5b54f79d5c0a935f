using System.Text.RegularExpressions;

namespace Tankside.Portal.Shell;

/// <summary>Words in braces in a text that somebody wrote, for which values are put when it is shown.</summary>
public static partial class Braces
{
    /// <summary>What is wrong with the braces of a text; null when nothing is.</summary>
    /// <param name="known">The words that may stand in braces.</param>
    public static string? Check(string text, IReadOnlyList<string> known)
    {
        var listed = string.Join(", ", known.Select(k => $"{{{k}}}"));
        var unknown = InBraces().Matches(text).Where(m => !known.Contains(m.Groups[1].Value.Trim(), StringComparer.OrdinalIgnoreCase)).Select(m => m.Value).Distinct().ToList();
        if (unknown.Count > 0)
        {
            return $"{string.Join(", ", unknown)} {(unknown.Count == 1 ? "is" : "are")} not known here. The known ones are {listed}.";
        }

        return InBraces().Replace(text, "").IndexOfAny(['{', '}']) >= 0 ? $"A brace stands alone. Braces are for {listed}." : null;
    }

    /// <summary>What stands in braces, in the order of the text.</summary>
    public static IEnumerable<string> In(string text) => InBraces().Matches(text).Select(m => m.Groups[1].Value.Trim());

    /// <summary>What has no value stays as it is written.</summary>
    public static string Fill(string text, Func<string, string?> value) => InBraces().Replace(text, m => value(m.Groups[1].Value.Trim()) ?? m.Value);

    [GeneratedRegex(@"\{([^{}]*)\}")]
    private static partial Regex InBraces();
}
