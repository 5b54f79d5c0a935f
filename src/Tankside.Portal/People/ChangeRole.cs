using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>What became of a change to a member.</summary>
public abstract record MemberOutcome
{
    public sealed record Done(string Name) : MemberOutcome;

    public sealed record NotFound : MemberOutcome;

    public sealed record Refused(string Field, string Why) : MemberOutcome;

    public static MemberOutcome LastLead { get; } =
        new Refused("Role", "A programme needs a lead, and this is the only one. Make somebody else programme lead first.");

    public static MemberOutcome Crossed { get; } =
        new Refused("Role", "Somebody else changed the same at this moment. Nothing of yours is saved; please look again.");
}

/// <summary>Gives a member another role or school and ends their open sessions, which still have the old one.</summary>
public sealed class ChangeRole(IDbContextFactory<HatcheryDb> databases, IPlaceNames places)
{
    public async Task<MemberOutcome> HandleAsync(CurrentUser user, Guid membershipId, RoleAtSchool wanted, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var membership = await db.Memberships.SingleOrDefaultAsync(m => m.Id == membershipId && m.ProgrammeId == user.ProgrammeId, cancel);
        if (membership is null)
        {
            return new MemberOutcome.NotFound();
        }

        if (wanted.Misfit(await places.SchoolsAsync(user.ProgrammeId, cancel)) is { } misfit)
        {
            return new MemberOutcome.Refused(InvitePerson.SchoolField, misfit);
        }

        if (wanted.Role != Role.ProgrammeLead && !await Leads.CanSpareAsync(db, membership, cancel))
        {
            return MemberOutcome.LastLead;
        }

        var person = await db.Users.SingleAsync(p => p.Id == membership.PersonId, cancel);
        if (wanted == new RoleAtSchool(membership.Role, membership.SchoolId))
        {
            return new MemberOutcome.Done(person.Name);
        }

        (membership.Role, membership.SchoolId) = (wanted.Role, wanted.SchoolId);
        Sessions.EndAll(person);
        return await SaveAsync(db, person.Name, cancel);
    }

    internal static async Task<MemberOutcome> SaveAsync(HatcheryDb db, string name, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
            return new MemberOutcome.Done(name);
        }
        catch (DbUpdateConcurrencyException)
        {
            return MemberOutcome.Crossed;
        }
    }
}
