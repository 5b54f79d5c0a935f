using System.Globalization;

namespace Tankside.Portal.Bench.Asking;

/// <summary>Reads a number as programs write it, or as people type it.</summary>
public static class NumberText
{
    private const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent
        | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite;

    /// <summary>Invariant only. Not-a-number and infinity are refused.</summary>
    public static double? Invariant(string text) =>
        double.TryParse(text, Style, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;

    /// <summary>A decimal comma or a decimal point. One that could be a thousand as well is refused.</summary>
    public static double? AsTyped(string text) =>
        MayBeThousands(text) || text.Count(c => c == ',') > 1 || (text.Contains(',') && text.Contains('.'))
            ? null
            : Invariant(text.Replace(',', '.'));

    /// <summary>5,000 is five thousand to one reader and five to another.</summary>
    public static bool MayBeThousands(string text)
    {
        var parts = text.Trim().TrimStart('-', '+').Split(',');
        return parts is [{ Length: >= 1 and <= 3 } whole, { Length: 3 } rest]
            && whole[0] != '0' && whole.All(char.IsAsciiDigit) && rest.All(char.IsAsciiDigit);
    }
}
