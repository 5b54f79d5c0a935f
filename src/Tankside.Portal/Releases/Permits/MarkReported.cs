using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

/// <summary>Says of a release that its report has gone to the agency, or that it has not after all.</summary>
public sealed class MarkReported(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    public async Task<Notice> HandleAsync(CurrentUser user, Guid releaseId, bool sent, CancellationToken cancel)
    {
        var trouble = "";
        return await InTurn.SaveAsync(() => TryAsync(user, releaseId, sent, cancel), (_, why) => trouble = why) ?? new Notice(false, trouble);
    }

    private async Task<Notice?> TryAsync(CurrentUser user, Guid releaseId, bool sent, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var found = await (
            from release in db.Releases
            join tank in TanksInReach.Of(db, user) on release.TankId equals tank.Id
            where release.Id == releaseId && release.WithdrawnAt == null
            select new { Release = release, tank.Code }).SingleOrDefaultAsync(cancel);
        if (found is null)
        {
            return new Notice(false, "There is no such release among those you may change. Nothing was changed.");
        }

        // The first word on when it was sent stays.
        if (sent != found.Release.ReportedAt is not null)
        {
            (found.Release.ReportedAt, found.Release.ReportedBy) = sent
                ? (Instants.ToMillisecond(time.GetUtcNow().UtcDateTime), user.PersonId)
                : ((DateTime?)null, (Guid?)null);
            await db.SaveChangesAsync(cancel);
        }

        return new Notice(true, sent
            ? say.Of("Kept: the report of {0} fish of {1} is sent.", Figures.Of(found.Release.Fish), found.Code)
            : say.Of("Kept: the report of {0} fish of {1} is still to be sent.", Figures.Of(found.Release.Fish), found.Code));
    }
}
