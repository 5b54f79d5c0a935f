using System.Text;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>
/// The lines of a text file one after the other, each of bounded length, with a few of them to be looked at ahead. It holds no more of the
/// file than that.
/// </summary>
internal sealed class TextLines(TextReader text)
{
    private readonly char[] buffer = new char[4096];
    private readonly StringBuilder line = new();
    private readonly Queue<Line> ahead = new();
    private int at, filled, number;

    /// <param name="Cut">True when the line went on beyond what any row may hold.</param>
    public readonly record struct Line(int Number, string Text, bool Cut);

    public Line? Next() => ahead.Count > 0 ? ahead.Dequeue() : Read();

    /// <summary>The line that stands <paramref name="steps"/> ahead of the next; null beyond the end.</summary>
    public Line? Peek(int steps)
    {
        while (ahead.Count <= steps)
        {
            if (Read() is not { } line)
            {
                return null;
            }

            ahead.Enqueue(line);
        }

        return ahead.ElementAt(steps);
    }

    private Line? Read()
    {
        line.Clear();
        var (cut, any) = (false, false);
        while (Sign() is { } sign)
        {
            any = true;
            if (sign == '\n')
            {
                return Done();
            }

            if (sign == '\r')
            {
                if (PeekSign() == '\n')
                {
                    at++;
                }

                return Done();
            }

            if (line.Length < SheetLimits.LongestRow)
            {
                line.Append(sign);
            }
            else
            {
                cut = true;
            }
        }

        return any ? Done() : null;

        Line Done() => new(++number, line.ToString(), cut);
    }

    private char? Sign() => PeekSign() is { } sign && at++ >= 0 ? sign : null;

    private char? PeekSign()
    {
        if (at == filled)
        {
            (at, filled) = (0, text.Read(buffer, 0, buffer.Length));
        }

        return filled > 0 ? buffer[at] : null;
    }
}
