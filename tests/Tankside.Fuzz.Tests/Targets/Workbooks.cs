using System.Globalization;
using System.Security;
using System.Text;
using System.Xml;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>Workbooks of texts, written down in the many ways that programs do.</summary>
public static class Workbooks
{
    private const string Main = "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"";

    public static bool IsXml(string text) => text.All(XmlConvert.IsXmlChar) || (text.EnumerateRunes().All(r => r.Value > 0xFFFF || XmlConvert.IsXmlChar((char)r.Value)) && !text.Contains('\uFFFD', StringComparison.Ordinal));

    public static byte[] Of(string[][] table, Dice dice)
    {
        var shared = new StringBuilder();
        var (count, rows) = (0, new StringBuilder());
        foreach (var (number, cells) in table.Index())
        {
            rows.Append(CultureInfo.InvariantCulture, $"<row{(dice.OneIn(2) ? $" r=\"{number + 1}\"" : "")}>");
            foreach (var (column, cell) in cells.Index())
            {
                var place = dice.OneIn(2) ? $" r=\"{(char)('A' + column)}{number + 1}\"" : "";
                if (dice.OneIn(2))
                {
                    shared.Append("<si>").Append(Runs(cell, dice)).Append("</si>");
                    rows.Append(CultureInfo.InvariantCulture, $"<c{place} t=\"s\"><v>{count++}</v></c>");
                }
                else
                {
                    rows.Append(CultureInfo.InvariantCulture, $"<c{place} t=\"inlineStr\"><is>{Runs(cell, dice, sounds: false)}</is></c>");
                }
            }

            rows.Append("</row>");
        }

        return Zips.Packed(new[]
        {
            ("xl/workbook.xml", $"<workbook {Main} xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><workbookPr date1904=\"{dice.Below(2)}\"/><sheets><sheet name=\"Readings\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>"),
            ("xl/_rels/workbook.xml.rels", "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r1\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet\" Target=\"worksheets/sheet1.xml\"/></Relationships>"),
            ("xl/styles.xml", $"<styleSheet {Main}><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"22\"/></cellXfs></styleSheet>"),
            ("xl/sharedStrings.xml", $"<sst {Main}>{shared}</sst>"),
            ("xl/worksheets/sheet1.xml", $"<worksheet {Main}><sheetData>{rows}</sheetData></worksheet>"),
        }.Select(p => (p.Item1, Encoding.UTF8.GetBytes(p.Item2))));
    }

    /// <summary>A text in one piece or in runs with fonts of their own; how it sounds stands beside it and is not it.</summary>
    private static string Runs(string text, Dice dice, bool sounds = true)
    {
        var at = dice.OneIn(2) ? 0 : text.Length / 2;
        at -= at > 0 && char.IsLowSurrogate(text[at]) ? 1 : 0;
        var plain = at == 0 ? T(text) : $"<r><t xml:space=\"preserve\">{Escaped(text[..at])}</t></r><r><rPr><b/></rPr>{T(text[at..])}</r>";
        return plain + (sounds && dice.OneIn(4) ? "<rPh sb=\"0\" eb=\"1\"><t>sound</t></rPh>" : "") + (sounds && dice.OneIn(4) ? "<phoneticPr fontId=\"1\"/>" : "");
    }

    private static string T(string text) => $"<t xml:space=\"preserve\">{Escaped(text)}</t>";

    /// <summary>A line's end in XML is one sign, whatever was written: only as a number does it stay what it was.</summary>
    private static string Escaped(string text) => SecurityElement.Escape(text)!.Replace("\r", "&#13;", StringComparison.Ordinal);
}
