using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>
/// Stores what was looked at, all of it in one transaction. What the page showed must still be what would be done: if something has changed
/// meanwhile, nothing is stored and it is told what.
/// </summary>
public sealed class StorePlaces(IDbContextFactory<HatcheryDb> databases, PlanPlaces plans, Outbox outbox)
{
    private const int MostTold = 5;

    private static readonly Notice Crossed = new(false, "Somebody changed something that this sheet is about at this very moment. Nothing was stored; please look at the rows as they are now.");

    /// <param name="seen">The import's version as the asker saw it.</param>
    /// <param name="print">What the page showed; see <see cref="PlacePlan.Print"/>.</param>
    /// <param name="ticked">The numbers of the rows that are to be stored; null for all.</param>
    public async Task<Notice> HandleAsync(CurrentUser user, Guid id, int seen, string print, CancellationToken cancel, IReadOnlySet<int>? ticked = null)
    {
        try
        {
            return await TryAsync(user, id, seen, print, ticked, cancel);
        }
        catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.IsUniqueViolation())
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            return await db.PlaceImportsOf(user).AsNoTracking().SingleOrDefaultAsync(i => i.Id == id, cancel) is { } import && WhyNot(import, null) is { } done ? done : Crossed;
        }
    }

    private async Task<Notice> TryAsync(CurrentUser user, Guid id, int seen, string print, IReadOnlySet<int>? ticked, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        if (await db.PlaceImportsOf(user).SingleOrDefaultAsync(i => i.Id == id, cancel) is not { } import)
        {
            return ChangePlaceImport.Gone;
        }

        if (WhyNot(import, seen) is { } why)
        {
            return why;
        }

        if (PlaceColumns.From(import.Columns).QuestionsFor(plans.KindOf(import)).Count > 0)
        {
            return new Notice(false, "Nothing is stored yet: please answer the questions about the columns first.");
        }

        var plan = await plans.OfAsync(db, user, import, await PlanPlaces.RowsAsync(db, id, cancel), cancel);
        if (plan.ChangedSince(print).ToList() is { Count: > 0 } changed)
        {
            // Somebody who stored the same sheet while this was read changed it too; then that is the news.
            return await db.PlaceImportsOf(user).AsNoTracking().SingleOrDefaultAsync(i => i.Id == id, cancel) is { } now && WhyNot(now, null) is { } done ? done : Stale(changed);
        }

        if (ticked is not null)
        {
            plan = new PlacePlan([.. plan.Rows.Where(r => ticked.Contains(r.Row.Number))]);
            if (plan.Stored == 0)
            {
                return new Notice(false, "No event is ticked that is not there already. Nothing was stored.");
            }
        }

        // Sheets of one programme are stored one after the other: of two that cross, the second is told.
        db.Entry(await db.Programmes.SingleAsync(p => p.Id == user.ProgrammeId, cancel)).Property(p => p.Name).IsModified = true;
        Store(db, user, import, plan);
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        outbox.Wake();
        return new Notice(true, $"Stored: {import.Added:#,0} added, {import.Changed:#,0} changed.{(import.Refused == 0 ? "" : $" {import.Refused:#,0} refused and not stored.")}");
    }

    private void Store(HatcheryDb db, CurrentUser user, PlaceImport import, PlacePlan plan)
    {
        var number = 0;
        foreach (var row in plan.Rows)
        {
            foreach (var thing in row.Things)
            {
                thing.Store(db);
                db.PlaceImportLines.Add(thing.Line(import.Id, ++number, row.Row.Number));
            }
        }

        (import.Added, import.Changed, import.Unchanged, import.Refused) =
            (plan.Count(PlaceFate.Added), plan.Count(PlaceFate.Changed), plan.Count(PlaceFate.Unchanged), plan.Count(PlaceFate.Refused));
        (import.State, import.StoredAt, import.StoredBy) = (PlaceImportState.Done, plans.AskOf(user, PlaceColumns.From(import.Columns)).Now, user.PersonId);
        db.PlaceImportSheets.Remove(new PlaceImportSheet { ImportId = import.Id, Content = [] });
    }

    /// <summary>Null when it may be stored.</summary>
    private static Notice? WhyNot(PlaceImport import, int? seen) => import.State switch
    {
        PlaceImportState.Done => new Notice(false, "This sheet is stored already, once. Nothing was done."),
        PlaceImportState.Undone => new Notice(false, "This import was taken back. To store it after all, send the sheet again."),
        PlaceImportState.Previewed => seen is { } version && version != import.Version ? ChangePlaceImport.Clash : null,
    };

    private static Notice Stale(List<PlannedRow> changed)
    {
        var told = string.Join("; ", changed.Take(MostTold).Select(r => $"row {r.Row.Number} ({(r.Name.Length > 0 ? r.Name : "no name")}) {PlaceWords.Now(r)}"));
        var more = changed.Count > MostTold ? $"; and {changed.Count - MostTold:#,0} more rows" : "";
        return new Notice(false, $"Nothing was stored, because something has changed since you looked. Now {told}{more}. Please look again; nothing of the sheet is lost.");
    }
}
