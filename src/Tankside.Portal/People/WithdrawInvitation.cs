using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>Makes an unanswered invitation void.</summary>
public sealed class WithdrawInvitation(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<Notice> HandleAsync(CurrentUser user, Guid invitationId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var invitation = await db.Invitations.SingleOrDefaultAsync(i => i.Id == invitationId && i.ProgrammeId == user.ProgrammeId, cancel);
        if (invitation is not { AcceptedAt: null, WithdrawnAt: null })
        {
            return new Notice(false, "This invitation is not open any more. It was accepted or withdrawn before.");
        }

        invitation.WithdrawnAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return new Notice(false, $"{invitation.Email} accepted at this very moment and is in the programme now.");
        }

        return new Notice(true, $"The invitation to {invitation.Email} is withdrawn. Its link does not work any more.");
    }
}
