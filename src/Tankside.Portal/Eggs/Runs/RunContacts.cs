using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Eggs.Runs;

/// <param name="Teachers">The adults of each school, by the school's id.</param>
/// <param name="Coordinator">Whom drivers ring.</param>
public sealed record RunPeople(ILookup<Guid, Person> Teachers, Person Coordinator)
{
    public string AdultsAt(Guid schoolId)
    {
        var adults = string.Join("; ", Teachers[schoolId].Select(Reach));
        return adults.Length == 0 ? "ask at the office" : adults;
    }

    public static string Reach(Person person) => string.IsNullOrWhiteSpace(person.PhoneNumber) ? person.Name : $"{person.Name}, {person.PhoneNumber}";
}

/// <summary>The named adult of every stop, and who is rung when something goes wrong.</summary>
public sealed class RunContacts(IDbContextFactory<HatcheryDb> databases)
{
    public async Task<RunPeople> OfAsync(RunView view, CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var schools = view.Stops.Select(s => s.School.Id).Distinct().ToList();
        var teachers = await (
            from m in db.Memberships
            join p in db.Users on m.PersonId equals p.Id
            where m.ProgrammeId == view.Run.ProgrammeId && m.Role == Role.Teacher && m.SchoolId != null && schools.Contains(m.SchoolId.Value)
            orderby p.Name
            select new { SchoolId = m.SchoolId!.Value, Person = p }).AsNoTracking().ToListAsync(cancel);
        return new RunPeople(teachers.ToLookup(t => t.SchoolId, t => t.Person), await db.Users.AsNoTracking().SingleAsync(p => p.Id == user.PersonId, cancel));
    }
}
