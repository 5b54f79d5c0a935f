using System.Globalization;
using System.Text;
using SkiaSharp;

namespace Tankside.Portal.Shell.Paper;

/// <summary>
/// Which letters the paper's fonts have. One that they lack would be printed as an empty box and be lost; it is written as its number in
/// Unicode instead, such as ⟨U+6771⟩, so that a name can still be looked up.
/// </summary>
public static class PaperLetters
{
    private static readonly Lazy<SKTypeface> Font = new(() =>
    {
        using var data = SKData.CreateCopy(new PaperFonts().GetFont("DejaVuSans"));
        return SKTypeface.FromData(data);
    });

    public static string Shown(string text)
    {
        if (text.All(c => c is >= ' ' and < '\u0250'))
        {
            return text;
        }

        var shown = new StringBuilder();
        foreach (var rune in text.EnumerateRunes())
        {
            if (Has(rune))
            {
                shown.Append(rune);
            }
            else
            {
                shown.Append(CultureInfo.InvariantCulture, $"⟨U+{rune.Value:X4}⟩");
            }
        }

        return shown.ToString();
    }

    /// <summary>Space and what joins letters without a shape of its own needs no letter.</summary>
    private static bool Has(Rune rune) =>
        Rune.IsWhiteSpace(rune) || Rune.GetUnicodeCategory(rune) == UnicodeCategory.Format || (rune.IsBmp && Font.Value.GetGlyph(rune.Value) != 0);
}
