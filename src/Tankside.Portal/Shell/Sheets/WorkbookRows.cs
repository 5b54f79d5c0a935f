using System.Globalization;
using System.Text;
using System.Xml;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>The rows of one sheet of a workbook, out of its XML, one at a time.</summary>
public static class WorkbookRows
{
    /// <summary>Rows below this number are not in any sheet.</summary>
    private const int LastRow = 1_048_576;

    /// <param name="part">The sheet's XML.</param>
    /// <param name="texts">The workbook's shared texts.</param>
    public static IEnumerable<SheetRow> Read(Stream part, IReadOnlyList<string> texts, CellFormats formats)
    {
        using var xml = WorkbookSheet.Xml(part);
        var number = 0;
        while (true)
        {
            SheetRow? row;
            try
            {
                row = Next(xml, texts, formats, ref number);
            }
            catch (Exception e) when (WorkbookSheet.IsBroken(e))
            {
                row = new SheetRow(Math.Min(number + 1, LastRow), [], "The workbook is damaged here: this row and what stands below it cannot be read.");
                number = LastRow;
            }

            if (row is null)
            {
                yield break;
            }

            yield return row;
            if (number >= LastRow)
            {
                yield break;
            }
        }
    }

    private static SheetRow? Next(XmlReader xml, IReadOnlyList<string> texts, CellFormats formats, ref int number)
    {
        while (xml.Step())
        {
            if (xml is { NodeType: XmlNodeType.Element, LocalName: "row" })
            {
                // Numbers only go up, whatever the file says, so that every row can be named by its own.
                var said = int.TryParse(xml.GetAttribute("r"), CultureInfo.InvariantCulture, out var r) ? r : 0;
                number = Math.Clamp(said, number + 1, LastRow);
                var cells = new List<string>();
                var beyond = !xml.IsEmptyElement && ReadCells(xml, cells, texts, formats);
                var trouble = beyond ? RowTroubles.TooManyCells() : TextRows.TroubleOf(cells);
                return new SheetRow(number, cells, trouble);
            }
        }

        return null;
    }

    /// <summary>True when something stands beyond the last column that is looked at.</summary>
    private static bool ReadCells(XmlReader xml, List<string> cells, IReadOnlyList<string> texts, CellFormats formats)
    {
        var (beyond, next) = (false, 0);
        while (xml.Step() && xml is not { NodeType: XmlNodeType.EndElement, LocalName: "row" })
        {
            if (xml is not { NodeType: XmlNodeType.Element, LocalName: "c" })
            {
                continue;
            }

            var column = Math.Max(ColumnOf(xml.GetAttribute("r")) ?? next, next);
            next = column + 1;
            var text = ReadCell(xml, texts, formats);
            if (column >= SheetLimits.MostColumns)
            {
                beyond |= !string.IsNullOrWhiteSpace(text);
                continue;
            }

            while (cells.Count < column)
            {
                cells.Add("");
            }

            cells.Add(text);
        }

        return beyond;
    }

    private static string ReadCell(XmlReader xml, IReadOnlyList<string> texts, CellFormats formats)
    {
        var type = xml.GetAttribute("t");
        var style = int.TryParse(xml.GetAttribute("s"), CultureInfo.InvariantCulture, out var s) ? s : 0;
        if (xml.IsEmptyElement)
        {
            return "";
        }

        var (value, inline, hasFormula) = (default(string), new StringBuilder(), false);
        while (xml.Step() && xml is not { NodeType: XmlNodeType.EndElement, LocalName: "c" })
        {
            switch (xml)
            {
                case { NodeType: XmlNodeType.Element, LocalName: "f" }:
                    hasFormula = true;
                    break;
                case { NodeType: XmlNodeType.Element, LocalName: "v" }:
                    value = ReadText(xml);
                    break;
                case { NodeType: XmlNodeType.Element, LocalName: "t" } when inline.Length <= SheetLimits.LongestCell:
                    inline.Append(ReadText(xml));
                    break;
                default:
                    break;
            }
        }

        return (type, value) switch
        {
            ("inlineStr", _) => inline.ToString(),
            (_, null or "") when hasFormula => "(a formula without a saved value)",
            (_, null) => "",
            ("s", _) => int.TryParse(value, CultureInfo.InvariantCulture, out var index) && index >= 0 && index < texts.Count ? texts[index] : "(a text that the workbook has lost)",
            ("b", _) => value == "1" ? "yes" : "no",
            ("str" or "e" or "d", _) => value,
            _ => formats.Show(value, style),
        };
    }

    private static string ReadText(XmlReader xml)
    {
        var text = new StringBuilder();
        while (!xml.IsEmptyElement && xml.Step() && xml.NodeType != XmlNodeType.EndElement)
        {
            AppendText(xml, text);
        }

        return text.ToString();
    }

    /// <summary>Takes a text in pieces, and no more of it than shows that it is too long.</summary>
    internal static void AppendText(XmlReader xml, StringBuilder text)
    {
        if (xml.NodeType is not (XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace))
        {
            return;
        }

        var piece = new char[256];
        while (text.Length <= SheetLimits.LongestCell && xml.ReadValueChunk(piece, 0, piece.Length) is > 0 and var read)
        {
            text.Append(piece, 0, read);
        }
    }

    /// <summary>"B7" is column 1.</summary>
    private static int? ColumnOf(string? reference)
    {
        var column = 0;
        foreach (var letter in (reference ?? "").TakeWhile(char.IsAsciiLetterUpper).Take(4))
        {
            column = (column * 26) + letter - 'A' + 1;
        }

        return column > 0 ? column - 1 : null;
    }
}
