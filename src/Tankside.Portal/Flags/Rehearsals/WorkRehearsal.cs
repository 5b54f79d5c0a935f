using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Rehearsals;

/// <summary>
/// Calls, taking a call back, and the end of a made-up morning. Each is saved at once, so a lost connection loses nothing; whoever acts on
/// an older state than the stored one is told and changes nothing.
/// </summary>
public sealed class WorkRehearsal(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    private static readonly Notice Elsewhere =
        new(false, "This morning went on in another window. Nothing was changed now; what you see is how it stands.");

    public Task<Notice?> CallAsync(CurrentUser user, Guid id, string? code, int version, CancellationToken cancel) => ChangeAsync(user, id, version, row =>
    {
        if (Rehearsing.Morning(row.Seed).Find(code ?? "") is not { } tank)
        {
            return new Notice(false, "Choose a tank first.");
        }

        if (row.Called.Contains(tank.Code))
        {
            return new Notice(false, $"Tank {tank.Code} has been called already.");
        }

        row.Called = [.. row.Called, tank.Code];
        return null;
    }, cancel);

    public Task<Notice?> UndoAsync(CurrentUser user, Guid id, int version, CancellationToken cancel) => ChangeAsync(user, id, version, row =>
    {
        if (row.Called.Count == 0)
        {
            return new Notice(false, "No call has been made yet.");
        }

        var last = row.Called[^1];
        row.Called = [.. row.Called.Take(row.Called.Count - 1)];
        return new Notice(true, $"The call of tank {last} is taken back, and its minutes with it.");
    }, cancel);

    public Task<Notice?> FinishAsync(CurrentUser user, Guid id, int version, CancellationToken cancel) => ChangeAsync(user, id, version, row =>
    {
        row.FinishedAt = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        return null;
    }, cancel);

    /// <summary>What to tell; null when the page itself shows what changed.</summary>
    private async Task<Notice?> ChangeAsync(CurrentUser user, Guid id, int version, Func<RehearsalMorning, Notice?> change, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await RehearsalBook.VisibleTo(db, user).SingleOrDefaultAsync(m => m.Id == id, cancel) is not { } row)
        {
            return new Notice(false, "That rehearsal is not there any more.");
        }

        if (row.WorkedBy != user.PersonId)
        {
            return new Notice(false, "Only the person it was started for makes its calls.");
        }

        if (row.FinishedAt is not null)
        {
            return new Notice(false, "This morning is finished.");
        }

        if (row.Version != version)
        {
            return Elsewhere;
        }

        var told = change(row);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return Elsewhere;
        }

        return told;
    }
}
