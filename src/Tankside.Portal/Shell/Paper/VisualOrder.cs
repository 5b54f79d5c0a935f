using System.Globalization;

namespace Tankside.Portal.Shell.Paper;

/// <summary>
/// Puts the letters of one line in the order in which they stand on paper, from left to right: Hebrew and Arabic words run the other way,
/// numbers and Latin words in them do not. It follows the plain cases of the Unicode bidirectional algorithm and knows no embeddings.
/// Arabic letters get their joined shapes before, by <see cref="JoinedLetters"/>.
/// </summary>
public static class VisualOrder
{
    private const string Opening = "()[]{}<>«»", Mirrored = ")(][}{><»«";

    public static string Of(string line)
    {
        if (!line.Any(IsRightToLeft))
        {
            return line;
        }

        var parts = StringInfo.ParseCombiningCharacters(line);
        var signs = parts.Select((start, i) => line[start..(i + 1 < parts.Length ? parts[i + 1] : line.Length)]).ToList();
        var levels = Levels(signs);
        return string.Concat(Arranged(signs, levels));
    }

    private static bool IsRightToLeft(char c) => c is (>= '\u0590' and <= '\u08FF') or (>= '\uFB1D' and <= '\uFDFF') or (>= '\uFE70' and <= '\uFEFC') && !char.IsDigit(c);

    /// <summary>Even runs to the right, odd to the left; the whole line runs as its first letter does.</summary>
    private static int[] Levels(List<string> signs)
    {
        var strong = signs.Select(Direction).ToArray();
        var whole = strong.FirstOrDefault(d => d is 'L' or 'R') == 'R' ? 1 : 0;
        var levels = new int[signs.Count];
        var before = whole == 1 ? 'R' : 'L';
        for (var i = 0; i < signs.Count; i++)
        {
            var direction = strong[i];
            if (direction == 'N')
            {
                var after = strong.Skip(i).FirstOrDefault(d => d != 'N');
                // Between two of one direction a sign goes with them, a digit of its word too; else with the line.
                direction = (after is '\0' ? (whole == 1 ? 'R' : 'L') : after == 'D' ? before : after) == before ? before : whole == 1 ? 'R' : 'L';
            }
            else if (direction != 'D')
            {
                before = direction;
            }

            levels[i] = direction switch
            {
                'R' => 1,
                'D' => before == 'R' ? 2 : whole == 1 ? 2 : 0,
                _ => whole == 1 ? 2 : 0,
            };
        }

        JoinNumbers(signs, levels);
        return levels;
    }

    /// <summary>"1,200" and "2026-27" are one number.</summary>
    private static void JoinNumbers(List<string> signs, int[] levels)
    {
        for (var i = 1; i + 1 < signs.Count; i++)
        {
            if (signs[i] is "," or "." or "-" or "/" or ":" && char.IsDigit(signs[i - 1][0]) && char.IsDigit(signs[i + 1][0]) && levels[i - 1] == levels[i + 1])
            {
                levels[i] = levels[i - 1];
            }
        }
    }

    private static char Direction(string sign) => sign[0] switch
    {
        var c when IsRightToLeft(c) => 'R',
        var c when char.IsDigit(c) => 'D',
        var c when char.IsLetter(c) || char.IsSurrogate(c) => 'L',
        _ => 'N',
    };

    /// <summary>From the deepest level up, each stretch of that level or deeper is turned.</summary>
    private static List<string> Arranged(List<string> signs, int[] levels)
    {
        var order = Enumerable.Range(0, signs.Count).ToList();
        for (var level = levels.Max(); level >= 1; level--)
        {
            for (var from = 0; from < order.Count; from++)
            {
                var to = from;
                while (to < order.Count && levels[order[to]] >= level)
                {
                    to++;
                }

                if (to > from)
                {
                    order.Reverse(from, to - from);
                    from = to;
                }
            }
        }

        return [.. order.Select(i => levels[i] % 2 == 1 && signs[i].Length == 1 && Opening.IndexOf(signs[i][0], StringComparison.Ordinal) is var at and >= 0
            ? Mirrored[at].ToString()
            : signs[i])];
    }
}
