using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.HatchCalendar;

public sealed class FeedForm
{
    /// <summary>Empty for all that the asker may see; else "school:" or "tank:" with its id.</summary>
    public string? Of { get; set; }
}

/// <summary>What a feed can be made of.</summary>
/// <param name="Value">As <see cref="FeedForm.Of"/> sends it.</param>
public sealed record FeedChoice(string Value, string Name);

/// <summary>An address that is in use: what it shows, and who made it when.</summary>
public sealed record ListedFeed(Guid Id, string Shows, string? MadeBy, DateTime MadeAt);

/// <summary>
/// The addresses that calendar programs read. A feed never shows more than its maker may see at that moment: who leaves the programme or
/// the school takes their feeds along.
/// </summary>
public sealed class Feeds(IDbContextFactory<HatcheryDb> databases, TanksideOptions options, TimeProvider time, Say say)
{
    private const string SchoolWord = "school:", TankWord = "tank:";

    public static string AddressOf(string secret) => $"calendar/feeds/{secret}.ics";

    public async Task<IReadOnlyList<FeedChoice>> ChoicesAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var tanks = await (
            from tank in db.TanksOf(user)
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where tank.ClosedAt == null
            orderby tank.Code
            select new { tank.Id, tank.Code, School = school }).ToListAsync(cancel);
        var schools = tanks.Select(t => t.School).DistinctBy(s => s.Id).OrderBy(s => s.Name, StringComparer.Ordinal).ToList();
        return
        [
            new("", user.Role == Role.Teacher ? say["all tanks of your school"] : say["the whole programme"]),
            .. user.Role == Role.Teacher ? [] : schools.Select(s => new FeedChoice(SchoolWord + s.Id, s.Name)),
            .. tanks.Select(t => new FeedChoice(TankWord + t.Id, say.Of("tank {0}", t.Code))),
        ];
    }

    /// <summary>A teacher's own; to a coordinator and a lead all of the programme.</summary>
    public async Task<IReadOnlyList<ListedFeed>> ListAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var rows = await (
            from feed in Mine(db, user)
            join person in db.Users on feed.IssuedBy equals person.Id into people
            from person in people.DefaultIfEmpty()
            join school in db.Schools on feed.SchoolId equals school.Id into schools
            from school in schools.DefaultIfEmpty()
            join tank in db.Tanks on feed.TankId equals tank.Id into tanks
            from tank in tanks.DefaultIfEmpty()
            orderby feed.IssuedAt
            select new { feed.Id, feed.IssuedAt, School = school == null ? null : school.Name, Tank = tank == null ? null : tank.Code, Name = person == null ? null : person.Name })
            .ToListAsync(cancel);
        return [.. rows.Select(r => new ListedFeed(
            r.Id, r.Tank is { } code ? say.Of("tank {0}", code) : r.School ?? say["all that its maker may see"], r.Name, r.IssuedAt))];
    }

    public async Task<Notice> IssueAsync(CurrentUser user, string? of, CancellationToken cancel)
    {
        var choices = await ChoicesAsync(user, cancel);
        if (choices.FirstOrDefault(c => c.Value == (of ?? "")) is not { } chosen)
        {
            return new Notice(false, say["This school or tank is not there any more. No address was made; please choose again."]);
        }

        var secret = Secrets.New();
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.CalendarFeeds.Add(new CalendarFeed
        {
            Id = Guid.CreateVersion7(),
            ProgrammeId = user.ProgrammeId,
            SchoolId = IdAfter(SchoolWord, chosen.Value),
            TankId = IdAfter(TankWord, chosen.Value),
            SecretHash = Secrets.Hash(secret),
            IssuedAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
            IssuedBy = user.PersonId,
        });
        await db.SaveChangesAsync(cancel);
        return new Notice(
            true,
            say.Of("The address of {0} is made. Put it into your calendar program where it asks for a calendar from the web. Whoever has it can read these dates, and nothing else.", chosen.Name),
            new Uri(options.PublicUrl, AddressOf(secret)).ToString());
    }

    public async Task<Notice> RevokeAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        if (await Mine(db, user).SingleOrDefaultAsync(f => f.Id == id, cancel) is not { } feed)
        {
            return new Notice(false, say["There is no such address any more."]);
        }

        feed.RevokedAt = now;
        await db.SaveChangesAsync(cancel);
        return new Notice(true, say["The address is revoked. Calendars that read it get no dates any more; what they had stays until they look again."]);
    }

    /// <summary>The feed of a secret and the tanks that its maker may see today; null for none.</summary>
    public static async Task<(CalendarFeed Feed, IQueryable<Tank> Tanks)?> OpenAsync(HatcheryDb db, string secret, CancellationToken cancel)
    {
        var hash = Secrets.Hash(secret);
        if (await db.CalendarFeeds.AsNoTracking().SingleOrDefaultAsync(f => f.SecretHash == hash && f.RevokedAt == null, cancel) is not { } feed
            || await db.Memberships.AsNoTracking().FirstOrDefaultAsync(m => m.PersonId == feed.IssuedBy && m.ProgrammeId == feed.ProgrammeId, cancel) is not { } maker)
        {
            return null;
        }

        var tanks = db.TanksOf(new CurrentUser(feed.IssuedBy, feed.ProgrammeId, maker.Role, maker.SchoolId));
        if (feed.SchoolId is { } school)
        {
            tanks = tanks.Where(t => db.Classrooms.Any(r => r.Id == t.ClassroomId && r.SchoolId == school));
        }

        return (feed, feed.TankId is { } tank ? tanks.Where(t => t.Id == tank) : tanks);
    }

    private static IQueryable<CalendarFeed> Mine(HatcheryDb db, CurrentUser user)
    {
        var all = db.CalendarFeeds.Where(f => f.ProgrammeId == user.ProgrammeId && f.RevokedAt == null);
        return user.Is(Role.Coordinator, Role.ProgrammeLead) ? all : all.Where(f => f.IssuedBy == user.PersonId);
    }

    private static Guid? IdAfter(string word, string value) =>
        value.StartsWith(word, StringComparison.Ordinal) ? Guid.Parse(value[word.Length..]) : null;
}
