using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.Digests;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Flags.HatchCalendar;
using Tankside.Portal.Tests.Eggs.Runs;
using Tankside.Portal.Tests.Releases.Bookings;
using Tankside.Storage;
using Tankside.Storage.People;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Access;

/// <summary>What the world needs besides, so that every address has something to show and something to give away.</summary>
public sealed partial class Callers
{
    private const string NextDoor = "teacher-next-door@example.test";

    /// <summary>Names, mail addresses and telephone numbers of everybody, also what somebody wrote into a note.</summary>
    public IReadOnlyList<string> Personal { get; private set; } = [];

    private TestProgramme One => World.One;

    private async Task FurnishAsync()
    {
        var invitation = Secrets.New();
        var nextDoor = NewPerson("Oriel Nextdoor", NextDoor);
        var spare = NewPerson("Sander Spare", "spare@example.test");
        var member = new Membership { Id = Guid.NewGuid(), PersonId = spare.Id, ProgrammeId = One.Programme.Id, Role = Role.KitHand };
        var teacher = One.People[Role.Teacher].Id;
        var (rehearsal, otherRehearsal) = (NewRehearsal(One, Role.Coordinator), NewRehearsal(World.Two, Role.ProgrammeLead));
        var (sweep, reply) = (NewSweep(One), Secrets.New());
        var (places, people) = (NewImport(One, PlaceSheet.Closures), NewImport(One, PlaceSheet.People));
        var (import, ownImport) = (NewImport(One, Role.Coordinator), NewImport(One, Role.Teacher));
        var photo = new TankPhoto { Id = Guid.NewGuid(), TankId = One.Tanks[0].Id, ReceivedAt = TestWorld.Now, SentBy = teacher, Content = [0xFF, 0xD8, 0xFF, 0xD9] };
        var chiller = new KitItem { Id = Guid.NewGuid(), ProgrammeId = One.Programme.Id, Serial = "CH-1", Make = "quarter horse", InTankId = One.Tanks[0].Id };
        var plate = new KitPhoto { Id = Guid.NewGuid(), ItemId = chiller.Id, ReceivedAt = TestWorld.Now, SentBy = teacher, Content = [0xFF, 0xD8, 0xFF, 0xD9] };
        var paper = new PermitPaper { Id = Guid.NewGuid(), PermitId = One.Permit.Id, ReceivedAt = TestWorld.Now, SentBy = teacher, Kind = PaperKind.Picture, Pages = 1, Content = [0xFF, 0xD8, 0xFF, 0xD9] };
        var run = new MadeRun(One);
        var booking = BookingSteps.Settled(One);
        var act = new BookingAct { Id = Guid.NewGuid(), BookingId = booking.Id, At = TestWorld.Now, By = teacher, Deed = BookingDeed.Settled, Note = "Quill-note: ring 555-0199" };
        (booking.Needs, booking.AgencyWho, booking.AgencyAt, booking.AgencyAgrees) = ("Quill-note: ring 555-0199", "Quill-biologist", TestWorld.Now, true);
        var announcement = new Announcement { Id = Guid.NewGuid(), ProgrammeId = One.Programme.Id, For = "kit hands", SubjectEn = "Eggs", TextEn = "Eggs come.", SubjectEs = "", TextEs = "", WrittenAt = TestWorld.Now, WrittenBy = teacher, GoesAt = TestWorld.Now.AddDays(1) };
        var template = new OwnTemplate { Id = Guid.NewGuid(), ProgrammeId = One.Programme.Id, Name = "Own", SubjectEn = "Eggs", TextEn = "Eggs come.", SubjectEs = "", TextEs = "", ChangedAt = TestWorld.Now, ChangedBy = teacher };
        await Host.SeedAsync(db =>
        {
            db.AddRange(announcement, template, new AnnouncementReader { AnnouncementId = announcement.Id, PersonId = spare.Id });
            db.AddRange(chiller, plate, paper);
            run.AddTo(db);
            db.AddRange(booking, act);
            db.AddRange(nextDoor, spare, member, rehearsal, otherRehearsal, photo);
            db.Add(new Membership { Id = Guid.NewGuid(), PersonId = nextDoor.Id, ProgrammeId = One.Programme.Id, Role = Role.Teacher, SchoolId = One.Schools[1].Id });
            db.AddRange(import, ownImport, NewSheet(import), NewSheet(ownImport));
            db.AddRange(places, people);
            db.AddRange(sweep, NewReply(sweep, One.Schools[0].Id, teacher, reply));
            db.AddRange(NewInvitation(One, invitation), NewInvitation(World.Two, Secrets.New()));
            AddRelease(db, One, 0, teacher);
            AddRelease(db, One, 1, nextDoor.Id);
            AddRelease(db, World.Two, 0, World.Two.People[Role.Teacher].Id);
            db.AddRange(NewLine(One, 0, teacher), NewLine(One, 1, nextDoor.Id), NewLine(World.Two, 0, World.Two.People[Role.Teacher].Id));
            db.AddRange(new[] { One, World.Two }.Select(p => new Closure { Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, FirstDay = new(2027, 2, 15), LastDay = new(2027, 2, 15), Reason = "Presidents’ Day" }));
        });
        await GivePeopleNumbersAsync();
        await Host.SweepAsync();
        await using var db = Host.OpenDb();
        var lines = await db.Ledger.Where(e => e.EnteredBy != null && e.ReleaseId == null).ToDictionaryAsync(e => e.TankId, e => e.Id);
        values = new()
        {
            ["tank"] = One.Tanks[0].Code,
            ["next-tank"] = One.Tanks[1].Code,
            ["label"] = One.RoomCodes[0].Code,
            ["line"] = $"{lines[One.Tanks[0].Id]}",
            ["other-line"] = $"{lines[World.Two.Tanks[0].Id]}",
            ["season"] = One.Season.Name,
            ["school"] = $"{One.Schools[0].Id}",
            ["season-id"] = $"{One.Season.Id}",
            ["room"] = $"{One.Rooms[0].Id}",
            ["rehearsal"] = $"{rehearsal.Id}",
            ["other-rehearsal"] = $"{otherRehearsal.Id}",
            ["key"] = $"{await db.ApiKeys.Where(k => k.ProgrammeId == One.Programme.Id && k.Role == ApiKeyRole.Logger).Select(k => k.Id).SingleAsync()}",
            ["photo"] = $"{photo.Id}",
            ["member"] = $"{member.Id}",
            ["person"] = $"{spare.Id}",
            ["invitation"] = invitation,
            ["import"] = $"{import.Id}",
            ["own-import"] = $"{ownImport.Id}",
            ["place-import"] = $"{places.Id}",
            ["people-import"] = $"{people.Id}",
            ["kit"] = chiller.Serial,
            ["kit-photo"] = $"{plate.Id}",
            ["sweep"] = $"{sweep.Id}",
            ["reply"] = reply,
            ["booking"] = $"{booking.Id}",
            ["permit"] = $"{One.Permit.Id}",
            ["permit-paper"] = $"{paper.Id}",
            ["site"] = $"{One.Site.Id}",
            ["run"] = $"{run.Run.Id}",
            ["run-stop"] = $"{run.Stops[0].Id}",
            ["run-code"] = run.Drivers[0].Code,
            ["announcement"] = $"{announcement.Id}",
            ["own-template"] = $"{template.Id}",
            ["leave"] = Host.Services.GetRequiredService<LeaveLinks>().LinkOf(spare.Id, MailKind.Announcement).Segments[^1],
            ["feed"] = await FeedAsync(),
            ["password-link"] = (await Host.CallAsync<PasswordLinks, Uri>(links => links.NewAsync(spare))).PathAndQuery,
        };
    }

    /// <summary>The secret of a feed that the coordinator made of the whole programme.</summary>
    private async Task<string> FeedAsync()
    {
        var coordinator = new CurrentUser(World.One.People[Role.Coordinator].Id, World.One.Programme.Id, Role.Coordinator, null);
        var made = await Host.CallAsync<Feeds, Notice>(feeds => feeds.IssueAsync(coordinator, null, CancellationToken.None));
        return Path.GetFileNameWithoutExtension(new Uri(made.Link!).AbsolutePath);
    }

    /// <summary>Telephone numbers, and names that no other word of a page can be taken for.</summary>
    private async Task GivePeopleNumbersAsync()
    {
        await using var db = Host.OpenDb();
        var people = await db.Users.OrderBy(p => p.Email).ToListAsync();
        foreach (var (index, person) in people.Index())
        {
            (person.Name, person.PhoneNumber) = ($"Quill-{index} {person.Name}", $"555-01{index:00}");
        }

        await db.SaveChangesAsync();
        Personal = [.. people.SelectMany(p => new[] { p.Name, p.Email!, p.PhoneNumber! }), "Quill-", "555-01", "@example.test"];
    }

    private Person NewPerson(string name, string email) => new()
    {
        Id = Guid.NewGuid(),
        Name = name,
        UserName = email,
        NormalizedUserName = email.ToUpperInvariant(),
        Email = email,
        NormalizedEmail = email.ToUpperInvariant(),
        EmailConfirmed = true,
        SecurityStamp = Guid.NewGuid().ToString("n"),
        PasswordHash = One.People[Role.Teacher].PasswordHash,
    };

    private static RehearsalMorning NewRehearsal(TestProgramme programme, Role worker) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        Seed = 4711,
        StartedBy = programme.People[Role.ProgrammeLead].Id,
        WorkedBy = programme.People[worker].Id,
        StartedAt = TestWorld.Now,
    };

    private static Invitation NewInvitation(TestProgramme programme, string secret) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        Email = $"invited-{programme.Letter}@example.test",
        Role = Role.Coordinator,
        SecretHash = Secrets.Hash(secret),
        InvitedAt = TestWorld.Now,
        InvitedBy = programme.People[Role.ProgrammeLead].Id,
        ExpiresAt = TestWorld.Now + Invitation.Lifetime,
    };

    private static ReadingImport NewImport(TestProgramme programme, Role sender) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        FileName = "sheet.csv",
        SentBy = programme.People[sender].Id,
        SentAt = TestWorld.Now.AddHours(-1),
        Columns = "{}",
        State = ImportState.Done,
    };

    private static PlaceImport NewImport(TestProgramme programme, PlaceSheet holds) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        FileName = "places.csv",
        Holds = holds,
        SentBy = programme.People[Role.ProgrammeLead].Id,
        SentAt = TestWorld.Now.AddHours(-1),
        StoredAt = TestWorld.Now,
        Columns = "{}",
        State = PlaceImportState.Done,
    };

    private static ImportedSheet NewSheet(ReadingImport import) => new() { ImportId = import.Id, Content = "Date,Tank,Water\n2027-02-01,A001,52\n"u8.ToArray() };

    private static AreaSweep NewSweep(TestProgramme programme) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        Area = "north",
        Reason = SweepReason.Snow,
        From = TestWorld.Now.AddHours(-2),
        MarkedBy = programme.People[Role.Coordinator].Id,
        MarkedAt = TestWorld.Now.AddHours(-2),
    };

    private static SweepReply NewReply(AreaSweep sweep, Guid school, Guid teacher, string secret) => new()
    {
        Id = Guid.NewGuid(),
        SweepId = sweep.Id,
        SchoolId = school,
        PersonId = teacher,
        SecretHash = Secrets.Hash(secret),
        AskedAt = sweep.MarkedAt,
    };

    private static void AddRelease(HatcheryDb db, TestProgramme programme, int tank, Guid by)
    {
        var release = new Release
        {
            Id = Guid.NewGuid(),
            SeasonId = programme.Season.Id,
            TankId = programme.Tanks[tank].Id,
            SiteId = programme.Site.Id,
            PermitId = programme.Permit.Id,
            At = TestWorld.Now.AddHours(-20),
            Fish = 3,
            EnteredBy = by,
            EnteredAt = TestWorld.Now.AddHours(-20),
            Note = "Quill-note: ring 555-0199",
        };
        db.Add(release);
        db.Add(NewLine(programme, tank, by, LedgerKind.Released, release.Id));
    }

    private static LedgerEntry NewLine(TestProgramme programme, int tank, Guid by, LedgerKind kind = LedgerKind.EggLoss, Guid? release = null) => new()
    {
        SenderId = Guid.NewGuid(),
        SeasonId = programme.Season.Id,
        TankId = programme.Tanks[tank].Id,
        ReleaseId = release,
        Kind = kind,
        Count = kind == LedgerKind.Released ? 3 : 1,
        At = TestWorld.Now.AddDays(-3),
        EnteredAt = TestWorld.Now.AddDays(-3),
        EnteredBy = by,
        Note = "Quill-note: ring 555-0199",
    };
}
