using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>
/// Writes to every teacher under a mark, once, in their own language, each with a link of their own. The letters are stored in the same
/// transaction as the questions; what was stored is sent, also after a restart.
/// </summary>
public sealed class MessageTeachers(IDbContextFactory<HatcheryDb> databases, TimeProvider time, TanksideOptions options, Outbox outbox, RoundFeed feed)
{
    /// <summary>How often it is tried again when another coordinator pressed at the same moment.</summary>
    private const int Tries = 3;

    /// <summary>How many were written to now; null for a mark that is not the person's programme's.</summary>
    public async Task<int?> HandleAsync(CurrentUser user, Guid sweepId, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await TryAsync(user, sweepId, cancel);
            }
            catch (DbUpdateException e) when (attempt < Tries && e.IsUniqueViolation())
            {
                // Another coordinator wrote to some of them meanwhile; the next try leaves those out.
            }
        }
    }

    /// <summary>The teachers under a mark who have not been written to.</summary>
    public static IQueryable<Membership> NotYetAsked(HatcheryDb db, AreaSweep sweep)
    {
        var schools = db.SchoolsUnder(sweep);
        return db.Memberships.Where(m => m.ProgrammeId == sweep.ProgrammeId && m.Role == Role.Teacher && schools.Any(s => s.Id == m.SchoolId)
            && !db.SweepReplies.Any(r => r.SweepId == sweep.Id && r.PersonId == m.PersonId));
    }

    /// <summary>What the keys of all letters of a mark begin with.</summary>
    public static string KeyOf(Guid sweepId) => $"{SweepLetterWords.Kind}{sweepId} ";

    public static string KeyOf(Guid sweepId, Guid personId) => $"{KeyOf(sweepId)}{personId}";

    /// <summary>What messages about a mark say; the contact is whoever marked the area, if they can be rung.</summary>
    public static async Task<SweepMessage> MessageAsync(HatcheryDb db, AreaSweep sweep, CancellationToken cancel)
    {
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == sweep.ProgrammeId, cancel);
        var marker = await db.Users.AsNoTracking().SingleOrDefaultAsync(p => p.Id == sweep.MarkedBy, cancel);
        var contact = string.IsNullOrWhiteSpace(marker?.PhoneNumber) ? null : $"{marker.Name}, {marker.PhoneNumber}";
        return new SweepMessage(sweep, programme.Name, ProgrammeClock.Of(programme.TimeZone), contact);
    }

    private async Task<int?> TryAsync(CurrentUser user, Guid sweepId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.AreaSweeps.AsNoTracking().SingleOrDefaultAsync(s => s.Id == sweepId && s.ProgrammeId == user.ProgrammeId, cancel) is not { } sweep)
        {
            return null;
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var message = await MessageAsync(db, sweep, cancel);
        var teachers = await (
            from m in NotYetAsked(db, sweep)
            join p in db.Users on m.PersonId equals p.Id
            select new { Person = p, SchoolId = m.SchoolId!.Value }).AsNoTracking().ToListAsync(cancel);
        var written = 0;
        foreach (var teacher in teachers.DistinctBy(t => t.Person.Id))
        {
            written += await AskAsync(db, message, teacher.Person, teacher.SchoolId, now, cancel) ? 1 : 0;
        }

        await db.SaveChangesAsync(cancel);
        outbox.Wake();
        feed.Tell([user.ProgrammeId]);
        return written;
    }

    /// <summary>False when somebody else wrote to them at the same moment.</summary>
    private async Task<bool> AskAsync(HatcheryDb db, SweepMessage message, Person person, Guid schoolId, DateTime now, CancellationToken cancel)
    {
        var secret = Secrets.New();
        var texts = SweepTexts.In(person.Language);
        var link = new Uri(options.PublicUrl, $"{ReplyAddresses.Path}/{secret}");
        var letter = new NewLetter(
            KeyOf(message.Sweep.Id, person.Id), message.Sweep.ProgrammeId, person.Id, person.Email!, texts.Subject(message.Sweep), texts.Letter(message, person.Name, link));
        if (!await outbox.WriteAsync(db, letter, cancel))
        {
            return false;
        }

        db.SweepReplies.Add(new SweepReply
        {
            Id = Guid.CreateVersion7(new DateTimeOffset(now)),
            SweepId = message.Sweep.Id,
            SchoolId = schoolId,
            PersonId = person.Id,
            SecretHash = Secrets.Hash(secret),
            AskedAt = now,
        });
        return true;
    }
}
