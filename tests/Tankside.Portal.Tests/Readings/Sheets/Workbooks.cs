using System.IO.Compression;
using System.Security;
using System.Text;

namespace Tankside.Portal.Tests.Readings.Sheets;

/// <summary>Workbooks as spreadsheet programs save them, part by part.</summary>
internal static class Workbooks
{
    /// <summary>Style 1 shows a day, style 2 a day and a time, style 3 a time.</summary>
    private const string Styles =
        "<styleSheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><numFmts><numFmt numFmtId=\"164\" formatCode=\"m/d/yyyy\\ h:mm\"/></numFmts>"
        + "<cellStyleXfs><xf numFmtId=\"14\"/></cellStyleXfs><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"164\"/><xf numFmtId=\"20\"/></cellXfs></styleSheet>";

    /// <param name="sheetData">The rows as XML.</param>
    public static byte[] With(string sheetData, string shared = "", string after = "") => Packed(
        ("xl/workbook.xml", "<workbook xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\" xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><sheets><sheet name=\"Readings\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>"),
        ("xl/_rels/workbook.xml.rels", "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r1\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet\" Target=\"worksheets/sheet1.xml\"/></Relationships>"),
        ("xl/styles.xml", Styles),
        ("xl/sharedStrings.xml", $"<sst xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\">{shared}</sst>"),
        ("xl/worksheets/sheet1.xml", $"<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData>{sheetData}</sheetData>{after}</worksheet>"));

    /// <summary>Rows of texts.</summary>
    public static byte[] OfTexts(IEnumerable<IEnumerable<string>> rows) => With(string.Concat(rows.Select((cells, row) =>
        $"<row r=\"{row + 1}\">{string.Concat(cells.Select((cell, column) => $"<c r=\"{(char)('A' + column)}{row + 1}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">{SecurityElement.Escape(cell)}</t></is></c>"))}</row>")));

    public static byte[] Packed(params ReadOnlySpan<(string Name, string Text)> parts)
    {
        using var file = new MemoryStream();
        using (var packed = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, text) in parts)
            {
                using var part = packed.CreateEntry(name).Open();
                part.Write(Encoding.UTF8.GetBytes(text));
            }
        }

        return file.ToArray();
    }
}
