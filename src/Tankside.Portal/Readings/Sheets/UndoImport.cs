using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>
/// Takes a whole import back in one transaction: its readings count no more, what was saved with them is undone, and their days are judged
/// again. What a person has corrected or answered since is that person's word and stays.
/// </summary>
public sealed class UndoImport(
    IDbContextFactory<HatcheryDb> databases, TimeProvider time, NewFacts newFacts, IEnumerable<ISavedWithReading> savedWith, Say say)
{
    private const int Group = 500;

    public async Task<Notice> HandleAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        if (await db.ImportsOf(user).SingleOrDefaultAsync(i => i.Id == id, cancel) is not { } import)
        {
            return new Notice(false, "There is no such import. Nothing was changed.");
        }

        if (import.State != ImportState.Done)
        {
            return import.State switch
            {
                ImportState.Undone => new Notice(true, "This import is taken back already."),
                ImportState.Running => new Notice(false, "The readings are still being stored. Wait until that is done, then take them back."),
                _ => new Notice(false, "No reading of this sheet is stored yet. Nothing was changed."),
            };
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        (import.State, import.UndoneAt, import.UndoneBy) = (ImportState.Undone, now, user.PersonId);
        try
        {
            await db.SaveChangesAsync(cancel);
            var notice = await WithdrawAsync(db, import, user.PersonId, now, cancel);
            await transaction.CommitAsync(cancel);
            newFacts.Tell();
            return notice;
        }
        catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.IsUniqueViolation())
        {
            return new Notice(false, "Somebody changed this import, or a ledger line of it, at this moment. Nothing was taken back; please try once more.");
        }
    }

    private async Task<Notice> WithdrawAsync(HatcheryDb db, ReadingImport import, Guid by, DateTime now, CancellationToken cancel)
    {
        var own = db.Readings.Where(r => r.ImportId == import.Id);

        // In one statement, so that a correction that comes at this moment is either seen here or finds its reading withdrawn.
        var withdrawn = await own.Where(r => r.CorrectedBy == null && r.State != ReadingState.Withdrawn)
            .ExecuteUpdateAsync(set => set.SetProperty(r => r.State, ReadingState.Withdrawn), cancel);
        var corrected = await own.CountAsync(r => r.CorrectedBy != null, cancel);

        // What was asked never counted: of the others the days are judged again, and what was saved with them is undone.
        var counted = own.Where(r => r.CorrectedBy == null && r.Doubt == null && r.State == ReadingState.Withdrawn);
        await AddFactsAsync(db, import, counted, cancel);
        await TakeBackAsync(db, counted, by, now, cancel);
        var kept = corrected == 0 ? "" : " " + say.Count(
            corrected,
            "One of them was corrected or answered by a person since; that person’s word stays.",
            "{0} of them were corrected or answered by a person since; those persons’ words stay.");
        return new Notice(true, say.Count(withdrawn, "Taken back: {0} reading counts no more.", "Taken back: {0} readings count no more.") + kept);
    }

    /// <summary>One fact for each tank's day, however many readings it had.</summary>
    private static async Task AddFactsAsync(HatcheryDb db, ReadingImport import, IQueryable<Reading> counted, CancellationToken cancel)
    {
        var clock = ProgrammeClock.Of(await db.Programmes.Where(p => p.Id == import.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel));
        var days = new Dictionary<(Guid, DateOnly), DateTime>();
        await foreach (var reading in counted.Select(r => new { r.TankId, r.At }).AsAsyncEnumerable().WithCancellation(cancel))
        {
            days.TryAdd((reading.TankId, clock.Day(reading.At)), reading.At);
        }

        db.UnjudgedFacts.AddRange(days.Select(d => new UnjudgedFact { TankId = d.Key.Item1, At = d.Value }));
        await db.SaveChangesAsync(cancel);
        db.ChangeTracker.Clear();
    }

    private async Task TakeBackAsync(HatcheryDb db, IQueryable<Reading> counted, Guid by, DateTime now, CancellationToken cancel)
    {
        for (var after = 0L; ;)
        {
            var from = after;
            var group = await counted.AsNoTracking()
                .Where(r => r.Id > from && (r.Seen.DeadEggs > 0 || r.Seen.DeadAlevins > 0 || r.Seen.DeadFry > 0))
                .OrderBy(r => r.Id).Take(Group).ToListAsync(cancel);
            if (group.Count == 0)
            {
                return;
            }

            foreach (var also in savedWith)
            {
                await also.TakeBackAsync(db, group, by, now, cancel);
            }

            await db.SaveChangesAsync(cancel);
            db.ChangeTracker.Clear();
            after = group[^1].Id;
        }
    }
}
