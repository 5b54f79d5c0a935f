using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>
/// Takes an import back in one transaction: what it added goes, what it changed is set back, except where something has come to depend on it
/// or somebody has changed it since. What stays is named with the reason.
/// </summary>
public sealed class UndoPlaces(IDbContextFactory<HatcheryDb> databases, PlanPlaces plans)
{
    public async Task<Notice> HandleAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        if (await db.PlaceImportsOf(user).SingleOrDefaultAsync(i => i.Id == id, cancel) is not { } import)
        {
            return new Notice(false, "There is no such import. Nothing was changed.");
        }

        if (import.State != PlaceImportState.Done)
        {
            return import.State == PlaceImportState.Undone
                ? new Notice(true, "This import is taken back already.")
                : new Notice(false, "Nothing of this sheet is stored yet. Nothing was changed.");
        }

        var ask = plans.AskOf(user, PlaceColumns.From(import.Columns));
        var lines = await db.PlaceImportLines.Where(l => l.ImportId == id).OrderBy(l => l.Number).ToListAsync(cancel);
        (import.State, import.UndoneAt, import.UndoneBy) = (PlaceImportState.Undone, ask.Now, user.PersonId);
        try
        {
            await db.SaveChangesAsync(cancel); // Of two who take it back at once the second is told here.
            await plans.KindOf(import).TakeBackAsync(db, ask, lines, cancel);
            await db.SaveChangesAsync(cancel);
            await transaction.CommitAsync(cancel);
        }
        catch (DbUpdateException)
        {
            // Somebody made something depend on it between the look and the save; the database does not let it go then.
            return new Notice(false, "Somebody changed this import, or something that depends on it, at this moment. Nothing was taken back; please try once more.");
        }

        var stayed = lines.Count(l => l.Stayed is not null);
        return new Notice(true, $"Taken back: {lines.Count - stayed:#,0} of {lines.Count:#,0}.{(stayed == 0 ? "" : $" {stayed:#,0} {(stayed == 1 ? "stays" : "stay")}, wholly or in part; below stands why.")}");
    }
}
