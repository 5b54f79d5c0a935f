using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>Takes somebody out of the programme. What they entered stays; their account stays too, without a way in.</summary>
public sealed class RemoveMember(IDbContextFactory<HatcheryDb> databases)
{
    public async Task<MemberOutcome> HandleAsync(CurrentUser user, Guid membershipId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var membership = await db.Memberships.SingleOrDefaultAsync(m => m.Id == membershipId && m.ProgrammeId == user.ProgrammeId, cancel);
        if (membership is null)
        {
            return new MemberOutcome.NotFound();
        }

        if (membership.PersonId == user.PersonId)
        {
            return new MemberOutcome.Refused("Role", "You cannot remove yourself. Another programme lead can.");
        }

        if (!await Leads.CanSpareAsync(db, membership, cancel))
        {
            return MemberOutcome.LastLead;
        }

        var person = await db.Users.SingleAsync(p => p.Id == membership.PersonId, cancel);
        db.Remove(membership);
        Sessions.EndAll(person);
        return await ChangeRole.SaveAsync(db, person.Name, cancel);
    }
}
