using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>Makes an API key void, at once and for good.</summary>
public sealed class RevokeKey(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<Notice> HandleAsync(CurrentUser user, Guid keyId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var key = await db.ApiKeys.SingleOrDefaultAsync(k => k.Id == keyId && k.ProgrammeId == user.ProgrammeId && k.RevokedAt == null, cancel);
        if (key is null)
        {
            return new Notice(false, "There is no such key any more.");
        }

        key.RevokedAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, "The key is revoked. Whatever uses it gets no answer any more; what it had sent is kept.");
    }
}
