using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Digests;

internal sealed record Recipient(Guid PersonId, string Email, Role Role, string Language);

/// <summary>Who gets a mail about a programme's round.</summary>
internal static class Recipients
{
    /// <summary>Coordinators and leads.</summary>
    public static Task<List<Recipient>> OfDigestAsync(HatcheryDb db, TanksideOptions options, Guid programmeId, CancellationToken cancel) =>
        WantAsync(db, options, programmeId, p => p.WantsDigest, cancel);

    /// <summary>Coordinators; the leads where a programme has no coordinator.</summary>
    public static async Task<List<Recipient>> OfUrgentAsync(HatcheryDb db, TanksideOptions options, Guid programmeId, CancellationToken cancel)
    {
        var works = await db.Memberships.AnyAsync(m => m.ProgrammeId == programmeId && m.Role == Role.Coordinator, cancel) ? Role.Coordinator : Role.ProgrammeLead;
        return [.. (await WantAsync(db, options, programmeId, p => p.WantsUrgent, cancel)).Where(r => r.Role == works)];
    }

    /// <summary>
    /// The leads and whoever answers for the permit, also those who want no morning mail: a report that is not sent in time can end a permit.
    /// Only who left the reminders themselves gets none.
    /// </summary>
    public static async Task<List<Recipient>> OfReportsAsync(HatcheryDb db, TanksideOptions options, Guid programmeId, Guid? responsible, CancellationToken cancel) =>
        [.. (await WantAsync(db, options, programmeId, p => !p.WithoutReminders, cancel)).Where(r => r.Role == Role.ProgrammeLead || r.PersonId == responsible)];

    private static Task<List<Recipient>> WantAsync(
        HatcheryDb db, TanksideOptions options, Guid programmeId, Expression<Func<Person, bool>> wants, CancellationToken cancel)
    {
        // Made-up people have made-up addresses: their letters may lie in a file, but no mail server is bothered with them.
        var withDemo = options is { DemoSeason: true, Mail.Host: null };
        return (
            from person in db.Users.Where(wants)
            join member in db.Memberships on person.Id equals member.PersonId
            where member.ProgrammeId == programmeId && (member.Role == Role.Coordinator || member.Role == Role.ProgrammeLead)
                && person.Email != null && (withDemo || !person.IsDemo)
            orderby person.Id
            select new Recipient(person.Id, person.Email!, member.Role, person.Language)).ToListAsync(cancel);
    }
}
