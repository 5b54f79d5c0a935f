using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Calls;

/// <summary>Somebody who works the round.</summary>
public sealed record RoundPerson(Guid Id, string Name);

/// <summary>An adult at a school, to be called.</summary>
public sealed record SchoolAdult(Guid Id, string Name, string? Phone, string? Email, string Language);

public static class RoundPeople
{
    /// <summary>Those a flag can be given to, by name.</summary>
    public static Task<List<RoundPerson>> OfAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel) => (
        from member in db.Memberships.AsNoTracking()
        join person in db.Users on member.PersonId equals person.Id
        where member.ProgrammeId == programmeId && (member.Role == Role.Coordinator || member.Role == Role.ProgrammeLead)
        orderby person.Name
        select new RoundPerson(person.Id, person.Name)).ToListAsync(cancel);

    /// <summary>The teachers of a school, by name.</summary>
    public static Task<List<SchoolAdult>> AtAsync(HatcheryDb db, Guid schoolId, CancellationToken cancel) => (
        from member in db.Memberships.AsNoTracking()
        join person in db.Users on member.PersonId equals person.Id
        where member.SchoolId == schoolId && member.Role == Role.Teacher
        orderby person.Name
        select new SchoolAdult(person.Id, person.Name, person.PhoneNumber, person.Email, person.Language)).ToListAsync(cancel);
}
