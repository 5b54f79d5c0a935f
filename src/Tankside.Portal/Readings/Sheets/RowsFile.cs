using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>
/// Rows of an import as a file: number, what became of it, why, and the cells as they stood in the sheet, so that it can be put right and
/// sent again. A text that a spreadsheet would run as a formula stands behind an apostrophe.
/// </summary>
public static class RowsFile
{
    public static void MapImportedRows(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/readings/import/{id:guid}/rows.csv", GetAsync).RequireAuthorization(Policies.Ledger).ExcludeFromDescription();

    private static async Task<IResult> GetAsync(
        Guid id, HttpContext context, IDbContextFactory<HatcheryDb> databases, JudgeRows judge, CancellationToken cancel, string? only = null)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (!await db.ImportsOf(CurrentUser.From(context.User)!).AnyAsync(i => i.Id == id && i.State != ImportState.Undone, cancel)
            || await SheetInHand.LoadAsync(db, id, cancel) is not { } sheet)
        {
            return TypedResults.NotFound();
        }

        return TypedResults.Stream(
            body => WriteAsync(body, sheet, judge, only == "refused", cancel), "text/csv; charset=utf-8; header=present", only == "refused" ? "refused rows.csv" : "rows.csv");
    }

    private static async Task WriteAsync(Stream body, SheetInHand sheet, JudgeRows judge, bool refusedOnly, CancellationToken cancel)
    {
        await using var text = new StreamWriter(body, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true), 16 * 1024);
        var titles = sheet.Columns.Meanings.Select((meaning, column) => column < sheet.Header.Titles.Count && sheet.Header.Titles[column].Length > 0
            ? sheet.Header.Titles[column] : $"column {column + 1}");
        await text.WriteAsync(SheetTexts.Line(["row", "outcome", "reason", .. titles]));
        await foreach (var row in judge.ForeseeAsync(sheet, cancel))
        {
            if (!refusedOnly || row.Fate == RowFate.Refused)
            {
                await text.WriteAsync(SheetTexts.Line([row.Row.Number.ToString(CultureInfo.InvariantCulture), FateWords.Word(row.Fate), row.Why, .. row.Row.Cells]));
            }
        }
    }
}
