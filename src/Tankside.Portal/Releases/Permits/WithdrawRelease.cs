using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Sealing;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.Seasons;

namespace Tankside.Portal.Releases.Permits;

/// <summary>Takes a release back that was entered by mistake: it is marked, and an opposite ledger line undoes its own. Nothing is erased.</summary>
public sealed class WithdrawRelease(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    public async Task<Notice> HandleAsync(CurrentUser user, Guid releaseId, CancellationToken cancel)
    {
        var trouble = "";
        return await InTurn.SaveAsync(() => TryAsync(user, releaseId, cancel), (_, why) => trouble = why) ?? new Notice(false, trouble);
    }

    private async Task<Notice?> TryAsync(CurrentUser user, Guid releaseId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var found = await (
            from release in db.Releases
            join tank in TanksInReach.Of(db, user) on release.TankId equals tank.Id
            where release.Id == releaseId
            select new { Release = release, Tank = tank }).SingleOrDefaultAsync(cancel);
        if (found is null)
        {
            return new Notice(false, "There is no such release among those you may change. Nothing was changed.");
        }

        var (taken, from) = (found.Release, found.Tank);
        if (taken.WithdrawnAt is not null)
        {
            return new Notice(true, "This release was taken back already.");
        }

        await using var turn = await SeasonTurn.ShareAsync(db, taken.SeasonId, cancel);
        if (await Seals.IsClosedAsync(db, taken.SeasonId, cancel))
        {
            return new Notice(false, Seals.Closed);
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        (taken.WithdrawnAt, taken.WithdrawnBy) = (now, user.PersonId);
        var reopens = from.ClosedAt == taken.EnteredAt; // The release had closed the tank; with it goes the closing.
        from.ClosedAt = reopens ? null : from.ClosedAt;
        var line = await db.Ledger.AsNoTracking().SingleAsync(e => e.ReleaseId == releaseId && e.CorrectsId == null, cancel);
        db.Ledger.Add(new LedgerEntry
        {
            ReleaseId = releaseId,
            SeasonId = line.SeasonId,
            TankId = line.TankId,
            Kind = line.Kind,
            Count = -line.Count,
            About = line.About,
            CountedBy = line.CountedBy,
            At = line.At,
            EnteredAt = now,
            EnteredBy = user.PersonId,
            CorrectsId = line.Id,
            Note = "Release taken back",
        });
        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        var told = say.Of("Taken back: {0} fish of {1}. The permit and the ledger have them again.", Figures.Of(taken.Fish), from.Code);
        return new Notice(true, reopens ? told + " " + say.Of("{0} is open again.", from.Code)
            : from.ClosedAt is null ? told
            : told + " " + say.Of("{0} is still closed: if fish are in it, open it again on its ledger page.", from.Code));
    }
}
