using System.Globalization;
using SpreadCheetah;
using SpreadCheetah.Metadata;
using SpreadCheetah.Styling;
using SpreadCheetah.Worksheets;
using Tankside.Hatchery.Releases;

namespace Tankside.Portal.Releases.Files;

/// <summary>
/// The account as a spreadsheet: a sheet a grouping, numbers and days as such, the header row standing still. Texts are texts, so that
/// nothing somebody typed can run as a formula.
/// </summary>
public static class TotalsXlsx
{
    /// <summary>Row by row into a file beside, then packed anew with the account's own time, so that the same account is the same file.</summary>
    public static async Task WriteAsync(SeasonTotals totals, Stream file, Action<int>? rowsWritten, CancellationToken cancel)
    {
        await using var draft = ReproducibleZip.Draft();
        var options = new SpreadCheetahOptions
        {
            CompressionLevel = SpreadCheetahCompressionLevel.Fastest,
            DocumentProperties = new DocumentProperties { Title = Clean($"{totals.Programme}, season {totals.Season}"), Author = "Tankside" },
        };
        await using (var book = await Spreadsheet.CreateNewAsync(draft, options, cancel))
        {
            var styles = Styles.In(book);
            foreach (var sheet in TotalsSheets.Of(totals))
            {
                await WriteAsync(book, sheet, styles, sheet.Name == "Tanks" ? rowsWritten : null, cancel);
            }

            await book.FinishAsync(cancel);
        }

        await ReproducibleZip.RepackAsync(draft, file, totals.EnteredUntil ?? DateTime.UnixEpoch, cancel);
    }

    private static async Task WriteAsync(Spreadsheet book, TotalsSheet sheet, Styles styles, Action<int>? rowsWritten, CancellationToken cancel)
    {
        var options = new WorksheetOptions { FrozenRows = 1 };
        foreach (var (name, index) in sheet.Columns.Select((name, i) => (name, i)))
        {
            options.Column(index + 1).Width = Math.Max(12, name.Length + 3);
        }

        if (sheet.Columns is ["what", "value"])
        {
            options.Column(2).Width = 100;
        }

        await book.StartWorksheetAsync(sheet.Name, options, cancel);
        await book.AddHeaderRowAsync([.. sheet.Columns], styles.Head, cancel);
        var written = 0;
        foreach (var row in sheet.Rows)
        {
            await book.AddRowAsync([.. row.Select(styles.Cell)], cancel);
            rowsWritten?.Invoke(++written);
        }
    }

    /// <summary>Signs that no XML may hold are shown as lost, which a name that is read aloud never has.</summary>
    private static string Clean(string text) =>
        text.Any(c => c < ' ' && c is not ('\t' or '\n' or '\r') || c is '\uFFFE' or '\uFFFF')
            ? string.Concat(text.Select(c => c < ' ' && c is not ('\t' or '\n' or '\r') || c is '\uFFFE' or '\uFFFF' ? '\uFFFD' : c))
            : text;

    private sealed record Styles(StyleId Head, StyleId Day, StyleId Percent)
    {
        public static Styles In(Spreadsheet book)
        {
            var head = new Style();
            head.Font.Bold = true;
            return new Styles(
                book.AddStyle(head),
                book.AddStyle(new Style { Format = NumberFormat.Custom("yyyy-mm-dd") }),
                book.AddStyle(new Style { Format = NumberFormat.Custom("0.00") }));
        }

        public Cell Cell(object? value) => value switch
        {
            null => new Cell((string?)null),
            string text => new Cell(Clean(text)),
            int count => new Cell(count),
            decimal percent => new Cell(percent, Percent),
            DateOnly day => new Cell(day.ToDateTime(TimeOnly.MinValue), Day),
            _ => throw new ArgumentOutOfRangeException(nameof(value), Convert.ToString(value, CultureInfo.InvariantCulture), "no kind of cell"),
        };
    }
}
