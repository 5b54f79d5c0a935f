using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>What people do with a sheet before it is stored: read it otherwise, or throw it away.</summary>
public sealed class ChangePlaceImport(IDbContextFactory<HatcheryDb> databases, PlanPlaces plans)
{
    public static readonly Notice Gone = new(false, "This sheet is not there any more. Nothing was changed."),
        Clash = new(false, "Somebody else changed this import meanwhile. Nothing was done; please look at it as it is now.");

    /// <param name="version">The import as the asker saw it.</param>
    public Task<Notice> ReadAsAsync(CurrentUser user, Guid id, int version, PlaceSheet holds, PlaceColumns columns, CancellationToken cancel) =>
        SaveAsync(user, id, version, async (db, import) =>
        {
            if (holds == PlaceSheet.People && !user.Is(Role.ProgrammeLead))
            {
                return new Notice(false, "Inviting people is for the programme lead. Nothing was changed.");
            }

            var kind = plans.Kinds.Single(k => k.Holds == holds);
            if (holds != import.Holds)
            {
                // Its columns are others: they are guessed anew.
                var meanings = GuessPlaces.Meanings(kind, columns.Titles);
                columns = columns with { Meanings = meanings, Order = GuessPlaces.OrderOf(kind, meanings, await PlanPlaces.RowsAsync(db, id, cancel)) };
            }
            else if (columns.Order is null)
            {
                columns = columns with { Order = GuessPlaces.OrderOf(kind, columns.Meanings, await PlanPlaces.RowsAsync(db, id, cancel)) };
            }

            (import.Holds, import.Columns) = (holds, columns.ToJson());
            return new Notice(true, "Read again as you said. Nothing is stored yet.");
        }, cancel);

    public Task<Notice> DiscardAsync(CurrentUser user, Guid id, int version, CancellationToken cancel) =>
        SaveAsync(user, id, version, (db, import) =>
        {
            db.Remove(new PlaceImportSheet { ImportId = id, Content = [] });
            db.Remove(import);
            return Task.FromResult(new Notice(true, $"“{import.FileName}” is thrown away. Nothing of it was stored."));
        }, cancel);

    private async Task<Notice> SaveAsync(CurrentUser user, Guid id, int version, Func<HatcheryDb, PlaceImport, Task<Notice>> change, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.PlaceImportsOf(user).SingleOrDefaultAsync(i => i.Id == id, cancel) is not { } import)
        {
            return Gone;
        }

        if (import.State is not PlaceImportState.Previewed)
        {
            return new Notice(false, $"This sheet is {PlaceWords.Of(import.State)}. Nothing was changed.");
        }

        if (import.Version != version)
        {
            return Clash;
        }

        var notice = await change(db, import);
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
