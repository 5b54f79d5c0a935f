using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>
/// What people do with a sheet before its readings are stored: read it otherwise, store it, or throw it away. Whoever acts on a page that
/// somebody else has changed meanwhile is told, and nothing happens.
/// </summary>
public sealed class ChangeImport(IDbContextFactory<HatcheryDb> databases, ImportQueue queue, TimeProvider time, Say say)
{
    private static readonly Notice Gone = new(false, "This sheet is not there any more. Nothing was changed.");

    private static readonly Notice Clash = new(false, "Somebody else changed this import meanwhile. Nothing was done; please look at it as it is now.");

    /// <param name="version">The import as the asker saw it.</param>
    public async Task<Notice> ReadAsAsync(CurrentUser user, Guid id, int version, SheetColumns columns, CancellationToken cancel)
    {
        var read = columns.Meanings.Count > 0 ? columns : await GuessAnewAsync(id, columns, cancel);
        return await SaveAsync(user, id, version, (_, import) =>
        {
            import.Columns = read.ToJson();
            return new Notice(true, "Read again as you said. Nothing is stored yet.");
        }, cancel);
    }

    /// <param name="rows">How many rows the asker saw.</param>
    public async Task<Notice> StoreAsync(CurrentUser user, Guid id, int version, int rows, CancellationToken cancel)
    {
        var notice = await SaveAsync(user, id, version, (_, import) =>
        {
            if (SheetColumns.From(import.Columns).Questions.Count > 0)
            {
                return new Notice(false, "Nothing is stored yet: please answer the questions about the columns first.");
            }

            (import.State, import.Rows) = (ImportState.Running, rows);
            return new Notice(true, "The readings are being stored.");
        }, cancel);
        if (notice.Good)
        {
            queue.Add(id);
        }

        return notice;
    }

    public Task<Notice> DiscardAsync(CurrentUser user, Guid id, int version, CancellationToken cancel) =>
        SaveAsync(user, id, version, (db, import) =>
        {
            db.Remove(new ImportedSheet { ImportId = id, Content = [] });
            db.Remove(import);
            return new Notice(true, say.Of("“{0}” is thrown away. No reading of it was stored.", import.FileName));
        }, cancel);

    /// <summary>Another sheet of the workbook has other columns.</summary>
    private async Task<SheetColumns> GuessAnewAsync(Guid id, SheetColumns columns, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await SheetInHand.LoadAsync(db, id, cancel, columns) is { } sheet
            ? GuessColumns.Of(sheet.File, sheet.Tanks, sheet.Clock.Day(time.GetUtcNow().UtcDateTime), columns.Leaf)
            : columns;
    }

    private async Task<Notice> SaveAsync(
        CurrentUser user, Guid id, int version, Func<HatcheryDb, ReadingImport, Notice> change, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.ImportsOf(user).SingleOrDefaultAsync(i => i.Id == id, cancel) is not { } import)
        {
            return Gone;
        }

        if (import.State is not ImportState.Previewed)
        {
            return import.State == ImportState.Undone
                ? new Notice(false, "This import was taken back. To store its readings after all, send the sheet again.")
                : new Notice(false, "The readings of this sheet are stored already, or being stored now. Nothing was changed.");
        }

        if (import.Version != version)
        {
            return Clash;
        }

        var notice = change(db, import);
        try
        {
            await db.SaveChangesAsync(cancel);
            return notice;
        }
        catch (DbUpdateConcurrencyException)
        {
            return Clash;
        }
    }
}
