using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.People;

/// <summary>A programme that somebody is in, and as what.</summary>
public sealed record OwnProgramme(Guid Id, string Name, Role Role);

/// <summary>Lets somebody who is in several programmes choose the one they work in; the choice holds for the next sign-in too.</summary>
public sealed class ChooseProgramme(HatcheryDb db, UserManager<Person> people, HouseSignIn signIn, ProgrammeInHand inHand)
{
    public async Task<IReadOnlyList<OwnProgramme>> OfAsync(Guid personId, CancellationToken cancel) => await (
        from member in db.Memberships
        join programme in db.Programmes on member.ProgrammeId equals programme.Id
        where member.PersonId == personId
        orderby programme.Name
        select new OwnProgramme(programme.Id, programme.Name, member.Role)).ToListAsync(cancel);

    /// <summary>False when they are not in it.</summary>
    public async Task<bool> HandleAsync(CurrentUser user, Guid programmeId, CancellationToken cancel)
    {
        if (!await db.Memberships.AnyAsync(m => m.PersonId == user.PersonId && m.ProgrammeId == programmeId, cancel)
            || await people.FindByIdAsync(user.PersonId.ToString()) is not { } person)
        {
            return false;
        }

        // Past the account's own stamp: a choice clashes with nothing that somebody else saves in the same moment.
        await db.Users.Where(p => p.Id == person.Id).ExecuteUpdateAsync(set => set.SetProperty(p => p.WorksIn, programmeId), cancel);
        inHand.Take(person.Id, programmeId);
        await signIn.RefreshSignInAsync(person);
        return true;
    }
}
