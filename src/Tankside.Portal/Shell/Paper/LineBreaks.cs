using System.Globalization;

namespace Tankside.Portal.Shell.Paper;

/// <summary>Breaks a text into lines of a width, whatever measures it.</summary>
public static class LineBreaks
{
    private const string More = "…";

    /// <param name="wholeWords">True to break between words only; then null when a word alone is too wide.</param>
    public static IReadOnlyList<string>? Of(string text, double width, Func<string, double> measure, bool wholeWords)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && measure($"{line} {word}") <= width)
            {
                line = $"{line} {word}";
                continue;
            }

            if (line.Length > 0)
            {
                lines.Add(line);
            }

            if (wholeWords && measure(word) > width)
            {
                return null;
            }

            line = word;
            while (measure(line) > width && Fitting(line, width, measure) is var part && part.Length < line.Length)
            {
                lines.Add(part);
                line = line[part.Length..];
            }
        }

        return line.Length > 0 ? [.. lines, line] : lines;
    }

    /// <summary>The lines there is room for; the last one says when there were more.</summary>
    public static IReadOnlyList<string> Cut(IReadOnlyList<string> lines, int room, double width, Func<string, double> measure)
    {
        if (lines.Count <= room)
        {
            return lines;
        }

        return [.. lines.Take(room - 1), Fitting(lines[room - 1], width - measure(More), measure).TrimEnd() + More];
    }

    /// <summary>The longest beginning that fits, never less than one sign: a letter and its accents stay together.</summary>
    private static string Fitting(string text, double width, Func<string, double> measure)
    {
        var ends = StringInfo.ParseCombiningCharacters(text).Skip(1).Append(text.Length);
        return text[..ends.TakeWhile((end, i) => i == 0 || measure(text[..end]) <= width).LastOrDefault()];
    }
}
