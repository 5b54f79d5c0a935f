using System.Globalization;
using System.Text;

namespace Tankside.Portal.Shell.Paper;

/// <summary>
/// Gives each Arabic letter the shape that it has beside its neighbours: alone, first, in the middle or last of a joined stretch. A PDF is
/// drawn letter by letter and joins nothing by itself. The shapes are the presentation forms of Unicode, blocks A and B; there each letter's
/// stand one after the other as alone, last, first, middle, and a compatible normalization leads from a shape back to its letter.
/// </summary>
public static class JoinedLetters
{
    private const char Lam = '\u0644', Tatweel = '\u0640', Joiner = '\u200D';

    /// <summary>Letter, or lam with its alef, to its shapes: two where it joins only to the letter before it, four where to both.</summary>
    private static readonly Lazy<Dictionary<string, char[]>> Shapes = new(() => ReadShapes('\uFE80', '\uFEFC')
        .Concat(ReadShapes('\uFB50', '\uFBB1')).Concat(ReadShapes('\uFBD3', '\uFBE9')).Concat(ReadShapes('\uFBFC', '\uFBFF'))
        .DistinctBy(shape => shape.Letter).ToDictionary(shape => shape.Letter, shape => shape.Forms, StringComparer.Ordinal));

    /// <summary>The text in the order in which it is read, with its letters shaped; text without Arabic letters comes back as it was.</summary>
    public static string Of(string text)
    {
        if (!text.Any(c => c is >= '\u0621' and <= '\u06FF'))
        {
            return text;
        }

        var signs = SignsOf(text);
        var shaped = new StringBuilder(text.Length);
        for (var i = 0; i < signs.Count; i++)
        {
            var before = i > 0 && JoinsOn(signs[i - 1].Letter) && JoinsBack(signs[i].Letter);
            var after = i + 1 < signs.Count && JoinsOn(signs[i].Letter) && JoinsBack(signs[i + 1].Letter);
            shaped.Append(ShapeOf(signs[i].Letter, before, after)).Append(signs[i].Marks);
        }

        return shaped.ToString();
    }

    /// <summary>Letters with the marks that stand over or under them, which join through; lam and alef are one sign.</summary>
    private static List<(string Letter, string Marks)> SignsOf(string text)
    {
        List<(string Letter, string Marks)> signs = [];
        foreach (var letter in text)
        {
            if (signs.Count > 0 && CharUnicodeInfo.GetUnicodeCategory(letter) is UnicodeCategory.NonSpacingMark)
            {
                signs[^1] = (signs[^1].Letter, signs[^1].Marks + letter);
            }
            else if (signs.Count > 0 && signs[^1].Letter == Lam.ToString() && Shapes.Value.ContainsKey($"{Lam}{letter}"))
            {
                signs[^1] = ($"{Lam}{letter}", signs[^1].Marks);
            }
            else
            {
                signs.Add((letter.ToString(), ""));
            }
        }

        return signs;
    }

    private static bool JoinsOn(string letter) => letter[0] is Tatweel or Joiner || (Shapes.Value.TryGetValue(letter, out var forms) && forms.Length == 4);

    private static bool JoinsBack(string letter) => letter[0] is Tatweel or Joiner || (Shapes.Value.TryGetValue(letter, out var forms) && forms.Length >= 2);

    private static string ShapeOf(string letter, bool before, bool after) => Shapes.Value.TryGetValue(letter, out var forms)
        ? (before, after) switch
        {
            (false, false) => letter.Length == 1 ? letter : forms[0].ToString(),
            (true, false) => forms[1].ToString(),
            (false, true) => forms[2].ToString(),
            (true, true) => forms[3].ToString(),
        }
        : letter;

    private static IEnumerable<(string Letter, char[] Forms)> ReadShapes(char first, char last)
    {
        List<char> forms = [];
        for (var shape = first; shape <= last; shape++)
        {
            if (forms.Count > 0 && LetterOf(forms[0]) != LetterOf(shape))
            {
                yield return (LetterOf(forms[0]), [.. forms]);
                forms.Clear();
            }

            forms.Add(shape);
        }

        yield return (LetterOf(forms[0]), [.. forms]);
    }

    private static string LetterOf(char shape) => shape.ToString().Normalize(NormalizationForm.FormKC);
}
