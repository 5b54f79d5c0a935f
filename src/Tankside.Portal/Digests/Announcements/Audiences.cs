using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Digests;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>Somebody of an audience.</summary>
/// <param name="Refused">Their address takes no mail; it is tried all the same.</param>
public sealed record AudienceMember(Person Person, Guid? SchoolId, WhyNoLetter? Without, RefusedAddress? Refused);

/// <summary>Whom a choice means, and how it is called.</summary>
public sealed record ChosenAudience(Audience Audience, string Words, IReadOnlyList<AudienceMember> Members)
{
    public IReadOnlyList<AudienceMember> WithLetter { get; } = [.. Members.Where(m => m.Without is null)];
}

/// <summary>What can be chosen of a programme.</summary>
public sealed record AudienceChoices(IReadOnlyList<(Guid Id, string Name)> Schools, IReadOnlyList<string> Areas, IReadOnlyList<(Guid Id, string Code)> Lots);

/// <summary>Finds the people of an audience as they are at this moment.</summary>
public sealed class Audiences(IDbContextFactory<HatcheryDb> databases, TanksideOptions options, TimeProvider time)
{
    public async Task<AudienceChoices> ChoicesAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var schools = await db.Schools.Where(s => s.ProgrammeId == programmeId).OrderBy(s => s.Name).Select(s => new { s.Id, s.Name, s.Area }).ToListAsync(cancel);
        var lots = await (
            from lot in db.EggLots
            join season in db.Seasons on lot.SeasonId equals season.Id
            where lot.ProgrammeId == programmeId
            orderby season.Name descending, lot.Code
            select new { lot.Id, lot.Code, Season = season.Name }).ToListAsync(cancel);
        return new AudienceChoices(
            [.. schools.Select(s => (s.Id, s.Name))], [.. schools.Select(s => s.Area).Where(a => a.Length > 0).Distinct().Order(StringComparer.Ordinal)],
            [.. lots.Select(l => (l.Id, $"{l.Code} ({l.Season})"))]);
    }

    /// <summary>Null when the choice is not complete and a field says why.</summary>
    public async Task<ChosenAudience?> FindAsync(Guid programmeId, AnnouncementForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        if (!Enum.TryParse<Audience>(form.Audience, out var audience) || !Enum.IsDefined(audience))
        {
            refuse(nameof(form.Audience), "Choose whom it is for.");
            return null;
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await WhichAsync(db, programmeId, audience, form, refuse, cancel) is not var (words, memberships))
        {
            return null;
        }

        var found = await (
            from member in memberships
            join person in db.Users on member.PersonId equals person.Id
            orderby person.Name, person.Email
            select new { Person = person, member.SchoolId }).AsNoTracking().ToListAsync(cancel);
        var refused = await RefusedAddresses.OfAsync(db, found.Select(f => f.Person.Email), cancel);
        return new ChosenAudience(audience, words, [.. found.Select(f => new AudienceMember(
            f.Person, f.SchoolId, Without(f.Person), f.Person.Email is { } mail ? refused.GetValueOrDefault(RefusedAddress.Key(mail)) : null))]);
    }

    private WhyNoLetter? Without(Person person) =>
        string.IsNullOrWhiteSpace(person.Email) ? WhyNoLetter.NoAddress
        : !person.Wants(MailKind.Announcement) ? WhyNoLetter.Left
        // Letters to made-up people may lie in a file, but no mail server is bothered with them.
        : person.IsDemo && options is not { DemoSeason: true, Mail.Host: null } ? WhyNoLetter.MadeUp
        : null;

    private async Task<(string Words, IQueryable<Membership> Members)?> WhichAsync(
        HatcheryDb db, Guid programmeId, Audience audience, AnnouncementForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var all = db.Memberships.Where(m => m.ProgrammeId == programmeId);
        var teachers = all.Where(m => m.Role == Role.Teacher);
        List<Guid> ticked = form.Schools ?? [];
        switch (audience)
        {
            case Audience.Teachers:
                return ("all teachers", teachers);
            case Audience.KitHands:
                return ("kit hands", all.Where(m => m.Role == Role.KitHand));
            case Audience.Everybody:
                return ("everybody except agency contacts", all.Where(m => m.Role != Role.AgencyContact));
            case Audience.TeachersOfSchools:
                var schools = await db.Schools.Where(s => s.ProgrammeId == programmeId && ticked.Contains(s.Id)).OrderBy(s => s.Name).ToListAsync(cancel);
                return Chosen(schools.Count > 0, nameof(form.Schools), "Choose one school or more.", $"teachers of {Names(schools.Select(s => s.Name))}", At([.. schools.Select(s => s.Id)]));
            case Audience.TeachersOfArea:
                var area = await db.Schools.Where(s => s.ProgrammeId == programmeId && s.Area == form.Area && s.Area != "").Select(s => s.Id).ToListAsync(cancel);
                return Chosen(area.Count > 0, nameof(form.Area), "Choose an area.", $"teachers in the area {form.Area}", At(area));
            case Audience.TeachersOfLot:
                var lot = Guid.TryParse(form.Lot, out var lotId) ? await db.EggLots.AsNoTracking().SingleOrDefaultAsync(l => l.ProgrammeId == programmeId && l.Id == lotId, cancel) : null;
                return Chosen(lot is not null, nameof(form.Lot), "Choose a lot.", $"teachers whose tanks hold lot {lot?.Code} or are to get it", At(lot is null ? [] : await SchoolsOfLotAsync(db, lot.Id, cancel)));
            case Audience.TeachersOfStage:
                var known = Enum.TryParse<LifeStage>(form.Stage, out var stage) && Enum.IsDefined(stage);
                return Chosen(known, nameof(form.Stage), "Choose a stage.", $"teachers whose tanks hold {ReasonWords.Stage(stage)}", At(known ? await SchoolsInStageAsync(db, programmeId, stage, cancel) : []));
            default:
                throw new InvalidOperationException($"{audience} is no audience.");
        }

        IQueryable<Membership> At(List<Guid> schools) => teachers.Where(m => m.SchoolId != null && schools.Contains(m.SchoolId.Value));

        (string, IQueryable<Membership>)? Chosen(bool good, string field, string why, string words, IQueryable<Membership> members)
        {
            if (!good)
            {
                refuse(field, why);
            }

            return good ? (words, members) : null;
        }
    }

    private static Task<List<Guid>> SchoolsOfLotAsync(HatcheryDb db, Guid lot, CancellationToken cancel) => (
        from tank in db.Tanks
        join room in db.Classrooms on tank.ClassroomId equals room.Id
        where tank.ClosedAt == null && (db.Receipts.Any(r => r.TankId == tank.Id && r.LotId == lot) || db.Allotments.Any(a => a.TankId == tank.Id && a.LotId == lot))
        select room.SchoolId).Distinct().ToListAsync(cancel);

    private async Task<List<Guid>> SchoolsInStageAsync(HatcheryDb db, Guid programmeId, LifeStage stage, CancellationToken cancel)
    {
        var open = await db.Tanks.Where(t => t.ProgrammeId == programmeId && t.ClosedAt == null).Select(t => t.Id).ToListAsync(cancel);
        var glances = await TankGlances.LoadAsync(db, open, time.GetUtcNow().UtcDateTime, cancel);
        return [.. glances.Where(g => g.Fish > 0 && g.Development?.Stage == stage).Select(g => g.Place.School.Id).Distinct()];
    }

    private static string Names(IEnumerable<string> names)
    {
        var all = names.ToList();
        return all.Count <= 6 ? string.Join(", ", all) : $"{string.Join(", ", all.Take(6))} and {all.Count - 6} more schools";
    }
}
