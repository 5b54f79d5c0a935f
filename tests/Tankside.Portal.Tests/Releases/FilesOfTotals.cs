using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Tests.Releases;

/// <summary>The account's files as other people's programs read them.</summary>
internal static class FilesOfTotals
{
    public static async Task<byte[]> WriteAsync(this SeasonTotals totals, string ending)
    {
        using var bytes = new MemoryStream();
        await TotalsFile.Named("x" + ending)!.WriteAsync(totals, bytes, null, CancellationToken.None);
        return bytes.ToArray();
    }

    public static List<Dictionary<string, string>> Csv(byte[] file)
    {
        using var csv = new CsvReader(
            new StringReader(Encoding.UTF8.GetString(file).TrimStart('\ufeff')), new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\r\n" });
        csv.Read();
        csv.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (csv.Read())
        {
            rows.Add(csv.HeaderRecord!.ToDictionary(name => name, name => csv.GetField(name)!));
        }

        return rows;
    }

    /// <summary>A sheet's rows by the names in its first row, each cell as its type and its plain text.</summary>
    public static List<Dictionary<string, (string Type, string Text)>> Sheet(byte[] file, string name)
    {
        using var book = SpreadsheetDocument.Open(new MemoryStream(file), isEditable: false);
        var part = PartOf(book, name);
        var rows = part.Worksheet!.Descendants<Row>().Select(r => r.Elements<Cell>().Select(c => Read(book, c)).ToList()).ToList();
        return [.. rows.Skip(1).Select(cells => rows[0].Select((head, i) => (head.Text, Cell: i < cells.Count ? cells[i] : ("", ""))).ToDictionary(c => c.Text, c => c.Cell))];
    }

    public static WorksheetPart PartOf(SpreadsheetDocument book, string name)
    {
        var sheet = book.WorkbookPart!.Workbook!.Descendants<Sheet>().Single(s => s.Name == name);
        return (WorksheetPart)book.WorkbookPart.GetPartById(sheet.Id!);
    }

    private static (string Type, string Text) Read(SpreadsheetDocument book, Cell cell)
    {
        Assert.Null(cell.CellFormula);
        if (cell.DataType?.Value == CellValues.InlineString)
        {
            return ("text", cell.InlineString!.InnerText);
        }

        var text = cell.CellValue?.Text ?? "";
        var format = book.WorkbookPart!.WorkbookStylesPart!.Stylesheet!.CellFormats!.Elements<CellFormat>().ElementAt((int)(cell.StyleIndex?.Value ?? 0)).NumberFormatId?.Value ?? 0;
        var code = book.WorkbookPart.WorkbookStylesPart.Stylesheet.NumberingFormats?.Elements<NumberingFormat>().FirstOrDefault(f => f.NumberFormatId! == format)?.FormatCode?.Value;
        return text.Length == 0 ? ("", "")
            : code == "yyyy-mm-dd" ? ("day", DateTime.FromOADate(double.Parse(text, CultureInfo.InvariantCulture)).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture))
            : code == "0.00" || format == 2 ? ("number", decimal.Parse(text, CultureInfo.InvariantCulture).ToString("0.00", CultureInfo.InvariantCulture))
            : ("number", text);
    }
}
