using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>Whether a page that stays open may go on: its session is open, nothing about its person has changed, and no second step is owed.</summary>
public sealed class LivingSession(UserManager<Person> people, HatcheryDb db, OpenSessions open, IOptions<IdentityOptions> options)
{
    public async Task<bool> HoldsAsync(ClaimsPrincipal session) =>
        await people.GetUserAsync(session) is { } person
        && session.FindFirstValue(options.Value.ClaimsIdentity.SecurityStampClaimType) == await people.GetSecurityStampAsync(person)
        && Sessions.IdOf(session) is { } id && await open.HoldsAsync(id, person)
        && CurrentUser.ProgrammeOf(session) is { } programme && !await OwedStep.IsByAsync(db, person, programme);
}
