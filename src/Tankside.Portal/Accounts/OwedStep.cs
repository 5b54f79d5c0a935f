using System.Security.Claims;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>
/// The second step that a programme demands. A session of somebody who still owes it carries no role, so that nothing is open to it but the pages
/// that set one up. A made-up person of the demo season owes none: whoever tries the demo shares the account.
/// </summary>
public static class OwedStep
{
    /// <summary>In the session of somebody who owes it.</summary>
    public const string Claim = "owes-second-step";

    /// <summary>Where it is set up.</summary>
    public const string Page = "/me/sign-in";

    public static bool IsBy(ClaimsPrincipal session) => session.HasClaim(c => c.Type == Claim);

    public static async Task<bool> IsByAsync(HatcheryDb db, Person person, Role role, Programme programme) =>
        !person.IsDemo && programme.DemandsStepOf(role) && !await HasOneAsync(db, person);

    /// <summary>Whether a page that was opened before the programme demanded it has to close.</summary>
    public static async Task<bool> IsByAsync(HatcheryDb db, Person person, Guid programmeId) =>
        await Places(db, person).SingleOrDefaultAsync(p => p.Programme.Id == programmeId) is { } place && await IsByAsync(db, person, place.Role, place.Programme);

    /// <summary>A code of a device, or a passkey.</summary>
    public static async Task<bool> HasOneAsync(HatcheryDb db, Person person) => person.TwoFactorEnabled || await db.Passkeys.AnyAsync(p => p.UserId == person.Id);

    /// <summary>The name of a programme that demands it of them; null where none does.</summary>
    public static async Task<string?> DemandedByAsync(HatcheryDb db, Person person) => person.IsDemo
        ? null
        : (await Places(db, person).ToListAsync()).Find(p => p.Programme.DemandsStepOf(p.Role))?.Programme.Name;

    private static IQueryable<Place> Places(HatcheryDb db, Person person) =>
        from m in db.Memberships.AsNoTracking()
        join p in db.Programmes.AsNoTracking() on m.ProgrammeId equals p.Id
        where m.PersonId == person.Id
        orderby m.Id
        select new Place { Role = m.Role, Programme = p };

    private sealed class Place
    {
        public Role Role { get; init; }

        public required Programme Programme { get; init; }
    }
}
