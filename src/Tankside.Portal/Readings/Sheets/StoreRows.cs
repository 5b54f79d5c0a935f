using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>
/// Stores the readings of a sheet through the one intake, a batch at a time, and keeps count. Cut short at any moment it goes on where it
/// was: a row that was stored but not counted is known again by its id.
/// </summary>
public sealed class StoreRows(IDbContextFactory<HatcheryDb> databases, JudgeRows judge, RecordReadings record, TimeProvider time)
{
    /// <summary>True when the import is done; false when it was not there to be worked on, or another portal works on it.</summary>
    public async Task<bool> RunAsync(Guid id, CancellationToken cancel)
    {
        SheetInHand? sheet;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            sheet = await SheetInHand.LoadAsync(db, id, cancel);
        }

        if (sheet is not { Import: { State: ImportState.Running } import })
        {
            return false;
        }

        var (version, passed) = (import.Version, 0);
        var totals = new RowTotals(import.Accepted, import.Asked, import.Duplicates, import.Refused, import.Blank);
        await foreach (var batch in judge.BatchesAsync(sheet, cancel))
        {
            passed += batch.Rows.Count;
            if (passed <= import.Handled)
            {
                continue;
            }

            var outcomes = await record.RecordAsync(batch.Readings, cancel);
            totals = (await judge.JudgeAsync(batch, outcomes, sheet, cancel)).Aggregate(totals, (sum, row) => sum.Plus(row.Fate));
            if (await CountAsync(id, version, totals, done: false, cancel) is not { } next)
            {
                return false;
            }

            version = next;
        }

        return await CountAsync(id, version, totals, done: true, cancel) is not null;
    }

    /// <summary>The import's new version; null when another portal counted meanwhile.</summary>
    private async Task<int?> CountAsync(Guid id, int version, RowTotals totals, bool done, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var import = await db.ReadingImports.SingleAsync(i => i.Id == id, cancel);
        if (import.Version != version || import.State != ImportState.Running)
        {
            return null;
        }

        (import.Accepted, import.Asked, import.Duplicates, import.Refused, import.Blank) = (totals.Accepted, totals.Asked, totals.Duplicates, totals.Refused, totals.Blank);
        import.Handled = totals.Rows;
        import.Rows = done ? totals.Rows : Math.Max(import.Rows, totals.Rows);
        if (done)
        {
            (import.State, import.FinishedAt) = (ImportState.Done, Instants.ToMillisecond(time.GetUtcNow().UtcDateTime));
        }

        try
        {
            await db.SaveChangesAsync(cancel);
            return import.Version;
        }
        catch (DbUpdateConcurrencyException)
        {
            return null;
        }
    }
}
