using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Due;

/// <summary>
/// Says of a permit that the agency was told that nothing was released on it, or takes that back. A release raises the permit's version and so
/// does this, so that of both at the same moment only one is kept.
/// </summary>
public sealed class NilReports(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<ReportsDue> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await ReportsDue.LoadAsync(db, user.ProgrammeId, time, cancel);
    }

    public async Task<Notice> HandleAsync(CurrentUser user, Guid permitId, bool sent, CancellationToken cancel)
    {
        var trouble = "";
        return await InTurn.SaveAsync(() => TryAsync(user, permitId, sent, cancel), (_, why) => trouble = why) ?? new Notice(false, trouble);
    }

    private async Task<Notice?> TryAsync(CurrentUser user, Guid permitId, bool sent, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Permits.SingleOrDefaultAsync(p => p.Id == permitId && p.ProgrammeId == user.ProgrammeId, cancel) is not { } permit)
        {
            return new Notice(false, "There is no such permit among those you may report on. Nothing was changed.");
        }

        if (sent && await db.Releases.AnyAsync(r => r.PermitId == permitId && r.WithdrawnAt == null, cancel))
        {
            return new Notice(false, $"Fish were released on permit {permit.Number}, so there is no nil report. Report those releases instead. Nothing was changed.");
        }

        // The first word on when it was sent stays.
        if (sent != permit.NilReportedAt is not null)
        {
            (permit.NilReportedAt, permit.NilReportedBy) = sent
                ? (Instants.ToMillisecond(time.GetUtcNow().UtcDateTime), user.PersonId)
                : ((DateTime?)null, (Guid?)null);
            await db.SaveChangesAsync(cancel);
        }

        return new Notice(true, sent
            ? $"Kept: the agency is told that nothing was released on permit {permit.Number}. No release can be entered on it while this stands."
            : $"Kept: the nil report of permit {permit.Number} is still to be sent.");
    }
}
