using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.People;

/// <summary>A link to a new password that a lead hands to a member themself, for when mail does not arrive.</summary>
public sealed class HandPasswordLink(
    IDbContextFactory<HatcheryDb> databases, UserManager<Person> people, PasswordLinks links, ILogger<HandPasswordLink> log)
{
    public async Task<Uri?> HandleAsync(CurrentUser user, Guid membershipId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var personId = await db.Memberships.Where(m => m.Id == membershipId && m.ProgrammeId == user.ProgrammeId)
            .Select(m => (Guid?)m.PersonId).SingleOrDefaultAsync(cancel);
        if (personId is null || await people.FindByIdAsync(personId.Value.ToString()) is not { } person)
        {
            return null;
        }

        log.LogInformation("{Lead} made a link to a new password for {Person}", user.PersonId, person.Id);
        return await links.NewAsync(person);
    }
}
