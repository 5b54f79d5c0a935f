using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>What a sheet would do now, row by row.</summary>
public sealed record PlacePlan(IReadOnlyList<PlannedRow> Rows)
{
    private const int SignsOfRow = 12;

    public int Count(PlaceFate fate) => Rows.Count(r => r.Fate == fate);

    public int Stored => Count(PlaceFate.Added) + Count(PlaceFate.Changed);

    /// <summary>A few signs for each row, which the page carries: what it showed can be told from what would be done now.</summary>
    public string Print { get; } = string.Concat(Rows.Select(PrintOf));

    /// <summary>The rows that are not as they were when <paramref name="seen"/> was shown.</summary>
    public IEnumerable<PlannedRow> ChangedSince(string seen) =>
        Rows.Where((_, i) => seen.Length != Print.Length || !seen.AsSpan(i * SignsOfRow, SignsOfRow).SequenceEqual(Print.AsSpan(i * SignsOfRow, SignsOfRow)));

    private static string PrintOf(PlannedRow row)
    {
        var text = new StringBuilder().Append(CultureInfo.InvariantCulture, $"{row.Row.Number}|{row.Fate}|{row.Name}|{row.Why}");
        foreach (var thing in row.Things)
        {
            text.Append(CultureInfo.InvariantCulture, $"|{thing.Thing}|{thing.Name}|{thing.Added}").AppendJoin('|', thing.Fields);
        }

        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())))[..SignsOfRow];
    }
}

/// <summary>Looks at the rows of an import as they would be stored now. Nothing is stored by it.</summary>
public sealed class PlanPlaces(IEnumerable<IPlaceSheet> kinds, TimeProvider time)
{
    public IReadOnlyList<IPlaceSheet> Kinds { get; } = [.. kinds.OrderBy(k => k.Holds)];

    public IPlaceSheet KindOf(PlaceImport import) => Kinds.Single(k => k.Holds == import.Holds);

    public PlaceAsk AskOf(CurrentUser user, PlaceColumns columns) =>
        new(user, Instants.ToMillisecond(time.GetUtcNow().UtcDateTime), columns.Order ?? DateOrder.MonthFirst);

    /// <summary>The rows of a sheet that is looked at; none once it is stored or thrown away.</summary>
    public static async Task<IReadOnlyList<SheetRow>> RowsAsync(HatcheryDb db, Guid import, CancellationToken cancel) =>
        await db.PlaceImportSheets.AsNoTracking().Where(s => s.ImportId == import).Select(s => s.Content).SingleOrDefaultAsync(cancel) is { } content
            ? JsonSerializer.Deserialize<List<SheetRow>>(content)!
            : [];

    public async Task<PlacePlan> OfAsync(HatcheryDb db, CurrentUser user, PlaceImport import, IReadOnlyList<SheetRow> rows, CancellationToken cancel)
    {
        var columns = PlaceColumns.From(import.Columns);
        var readable = rows.Where(r => r.Trouble is null).Select(r => new PlaceCells(r, columns.Meanings, WhyOf(r, columns))).ToList();
        var planned = await KindOf(import).PlanAsync(db, AskOf(user, columns), readable, cancel);
        return new PlacePlan([.. planned.Concat(rows.Where(r => r.Trouble is not null).Select(r => PlannedRow.Refused(r, "", [r.Trouble!]))).OrderBy(r => r.Row.Number)]);
    }

    private static List<string> WhyOf(SheetRow row, PlaceColumns columns)
    {
        for (var column = columns.Meanings.Count; column < row.Cells.Count; column++)
        {
            if (row[column].Length > 0)
            {
                return [$"“{SheetTexts.Shortened(row[column])}” stands beyond the last heading. Expected: as many cells as there are headings."];
            }
        }

        return [];
    }
}
