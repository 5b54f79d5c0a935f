using System.Text;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>
/// The rows of a text file with cells between separators (RFC 4180, and what people make of it). A quotation that nobody closes spoils
/// its own line only: it never swallows the rows below.
/// </summary>
public static class TextRows
{
    /// <summary>A quoted cell may run over this many lines.</summary>
    private const int LinesInCell = 40;

    private static readonly char[] Separators = [';', '\t', ',', '|'];

    /// <summary>Of a line with nothing in it: a file may hold a great many of them.</summary>
    private static readonly string[] Nothing = [""];

    public static IEnumerable<SheetRow> Read(TextReader text, char separator)
    {
        var (lines, cut) = (new TextLines(text), new CutRow(separator));
        var number = 0;
        while (lines.Next() is { } line)
        {
            number++;
            yield return line.Text.Length == 0 ? new SheetRow(number, Nothing) : RowFrom(lines, line, cut, number);
        }
    }

    /// <summary>The sign that cuts the first lines into the same number of cells most often.</summary>
    public static char GuessSeparator(TextReader text)
    {
        var lines = new TextLines(text);
        var first = new List<string>();
        while (first.Count < 60 && lines.Next() is { } line)
        {
            if (!string.IsNullOrWhiteSpace(line.Text))
            {
                first.Add(line.Text);
            }
        }

        return Separators
            .Select(s => (Sign: s, Usual: first.Select(l => Count(l, s)).Where(n => n > 0).GroupBy(n => n).OrderByDescending(g => g.Count()).ThenByDescending(g => g.Key).FirstOrDefault()))
            .Where(s => s.Usual is not null)
            .OrderByDescending(s => s.Usual!.Count()).ThenByDescending(s => s.Usual!.Key)
            .Select(s => s.Sign).FirstOrDefault(',');
    }

    private static int Count(string line, char separator)
    {
        var (count, quoted) = (0, false);
        foreach (var sign in line)
        {
            quoted ^= sign == '"';
            count += sign == separator && !quoted ? 1 : 0;
        }

        return count;
    }

    private static SheetRow RowFrom(TextLines lines, TextLines.Line line, CutRow row, int number)
    {
        var (taken, added) = (0, 0);
        row.Take(line.Text);
        while (row.IsOpen && !line.Cut && taken < LinesInCell && lines.Peek(taken) is { Cut: false } next && added + next.Text.Length <= SheetLimits.LongestQuoted)
        {
            row.Take("\n");
            row.Take(next.Text);
            taken++;
            added += next.Text.Length + 1;
        }

        var (cells, end) = row.End();
        if (end == Quotation.Open || (end == Quotation.Untidy && taken > 0))
        {
            row.Take(line.Text.Replace('"', ' '));
            var cut = row.End().Cells;
            TroubleOf(cut); // It keeps no more columns than are looked at.
            return new SheetRow(number, cut, RowTroubles.NeverClosed);
        }

        for (; taken > 0; taken--)
        {
            lines.Next();
        }

        return new SheetRow(number, cells, line.Cut ? RowTroubles.RowTooLong() : TroubleOf(cells));
    }

    internal static string? TroubleOf(List<string> cells)
    {
        if (cells.Count > SheetLimits.MostColumns)
        {
            var kept = cells[SheetLimits.MostColumns..].Any(c => !string.IsNullOrWhiteSpace(c));
            cells.RemoveRange(SheetLimits.MostColumns, cells.Count - SheetLimits.MostColumns);
            if (kept)
            {
                return RowTroubles.TooManyCells();
            }
        }

        return cells.Exists(c => c.Length > SheetLimits.LongestCell) ? RowTroubles.CellTooLong()
            : cells.Exists(IsUnreadable) ? "A cell of this row holds signs that could not be read. Was the file saved as UTF-8?"
            : null;
    }

    /// <summary>What stands in for bytes that are no text, and control signs that no keyboard makes.</summary>
    private static bool IsUnreadable(string cell)
    {
        foreach (var sign in cell)
        {
            if (IsUnreadable(sign))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsUnreadable(char sign) => sign is '\uFFFD' or '\uFFFE' or '\uFFFF' || (char.IsControl(sign) && sign is not ('\t' or '\n' or '\r'));

    /// <summary>
    /// Cuts a row into cells, line by line, looking at each sign once. A quotation begins only at the beginning of a cell, so that 5" of gravel is
    /// five inches.
    /// </summary>
    private sealed class CutRow(char separator)
    {
        private readonly StringBuilder cell = new();
        private List<string> cells = [];
        private bool blank = true;
        private Quotation end = Quotation.Closed;

        public bool IsOpen { get; private set; }

        public void Take(string text)
        {
            for (var i = 0; i < text.Length; i++)
            {
                var sign = text[i];
                var next = i + 1 < text.Length ? text[i + 1] : separator;
                if (IsOpen && sign == '"' && next == '"')
                {
                    cell.Append('"');
                    i++;
                }
                else if (IsOpen && sign == '"')
                {
                    IsOpen = false;
                    end = next == separator || char.IsWhiteSpace(next) ? end : Quotation.Untidy;
                }
                else if (!IsOpen && sign == '"' && blank)
                {
                    IsOpen = true;
                    blank = false;
                    cell.Clear();
                }
                else if (sign == separator && !IsOpen)
                {
                    Close();
                }
                else
                {
                    blank &= char.IsWhiteSpace(sign);
                    cell.Append(sign);
                }
            }
        }

        /// <summary>What was taken; the next row begins with nothing.</summary>
        public (List<string> Cells, Quotation End) End()
        {
            Close();
            var row = (cells, IsOpen ? Quotation.Open : end);
            (cells, IsOpen, end) = ([], false, Quotation.Closed);
            return row;
        }

        private void Close()
        {
            cells.Add(cell.ToString());
            cell.Clear();
            blank = true;
        }
    }

    /// <summary>How the quotations of a row end.</summary>
    private enum Quotation
    {
        Closed,
        Open,

        /// <summary>Something other than a separator follows a closing mark.</summary>
        Untidy,
    }
}
