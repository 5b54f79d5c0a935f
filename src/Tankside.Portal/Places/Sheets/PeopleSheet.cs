using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using MimeKit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.People;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>A sheet of adults. Each becomes an invitation by mail; nobody is entered without having accepted one.</summary>
public sealed class PeopleSheet(ILookupNormalizer normal, InvitationsByMail invitations) : IPlaceSheet
{
    private static readonly SheetField Name = new("name", "name", ["name", "full name", "adult", "teacher", "nombre"], "the adult’s own name", Required: true),
        Email = new("email", "mail address", ["email", "e mail", "mail", "email address", "correo"], "a mail address such as name@school.org", Required: true),
        RoleField = new("role", "role", ["role", "does", "job", "rol", "funcion"], "teacher, coordinator, kit hand, programme lead or agency contact", Required: true),
        School = new("school", "school", ["school", "building", "escuela"], "for a teacher, the name of a school of your programme");

    private static readonly Dictionary<string, Role> Roles = new(StringComparer.Ordinal)
    {
        ["teacher"] = Role.Teacher,
        ["maestro"] = Role.Teacher,
        ["maestra"] = Role.Teacher,
        ["coordinator"] = Role.Coordinator,
        ["kit hand"] = Role.KitHand,
        ["driver"] = Role.KitHand,
        ["programme lead"] = Role.ProgrammeLead,
        ["program lead"] = Role.ProgrammeLead,
        ["lead"] = Role.ProgrammeLead,
        ["agency contact"] = Role.AgencyContact,
        ["agency"] = Role.AgencyContact,
    };

    public PlaceSheet Holds => PlaceSheet.People;

    public IReadOnlyList<SheetField> Fields { get; } = [Name, Email, RoleField, School];

    public IReadOnlyList<SheetField> Keys { get; } = [Name, Email, RoleField];

    public IReadOnlyList<string> Example { get; } = ["Wren Alder", "wren.alder@heronford.example", "teacher", "Heron Ford Elementary"];

    public async Task<IReadOnlyList<PlannedRow>> PlanAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceCells> rows, CancellationToken cancel)
    {
        var programme = ask.User.ProgrammeId;
        var schools = await SchoolNames.LoadAsync(db, programme, cancel);
        var members = (await (
            from m in db.Memberships
            join p in db.Users on m.PersonId equals p.Id
            where m.ProgrammeId == programme
            select new { p.NormalizedEmail, m.Role, m.SchoolId }).ToListAsync(cancel)).ToDictionary(m => m.NormalizedEmail ?? "", m => new RoleAtSchool(m.Role, m.SchoolId));
        var open = (await db.Invitations.Where(i => i.ProgrammeId == programme && i.AcceptedAt == null && i.WithdrawnAt == null).ToListAsync(cancel)).ToLookup(i => Same(i.Email));
        var known = new Known(schools, [.. schools.All.Select(s => new SchoolChoice(s.Id, s.Name))], members, open, await db.Programmes.Where(p => p.Id == programme).Select(p => p.Name).SingleAsync(cancel));
        var before = new Dictionary<string, int>(StringComparer.Ordinal);
        return [.. rows.Select(row => PlanRow(row, known, before, ask))];
    }

    public async Task TakeBackAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceImportLine> lines, CancellationToken cancel)
    {
        var ids = lines.Select(l => l.ThingId).ToList();
        var there = await db.Invitations.Where(i => i.ProgrammeId == ask.User.ProgrammeId && ids.Contains(i.Id)).ToDictionaryAsync(i => i.Id, cancel);
        foreach (var line in lines)
        {
            switch (there.GetValueOrDefault(line.ThingId))
            {
                case { AcceptedAt: not null }:
                    line.Stayed = "It stays: the invitation was accepted. Remove the person on the people’s page if that is meant.";
                    break;
                case { WithdrawnAt: null } waiting:
                    waiting.WithdrawnAt = ask.Now;
                    break;
                default:
                    break;
            }
        }
    }

    private string Same(string email) => normal.NormalizeEmail(email) ?? "";

    private PlannedRow PlanRow(PlaceCells cells, Known known, Dictionary<string, int> before, PlaceAsk ask)
    {
        var (name, email, roleCell) = (cells.Need(Name), cells.Need(Email), cells.Need(RoleField));
        if (name.Length > 100)
        {
            cells.Unclear("The name is longer than 100 signs.");
        }

        if (email.Length > 0 && (email.Length > 200 || !email.Contains('@', StringComparison.Ordinal) || !MailboxAddress.TryParse(email, out var mailbox) || mailbox.Address != email))
        {
            cells.Unclear($"“{SheetTexts.Shortened(email)}” is no mail address. Expected: {Email.Expected}.");
        }

        var wanted = WantedOf(cells, known, roleCell);
        if (email.Length > 0 && !before.TryAdd(Same(email), cells.Row.Number))
        {
            cells.Unclear($"{email} stands in row {before[Same(email)]} already. An address is invited once.");
        }

        var title = name.Length > 0 ? $"{name}, {email}" : email;
        if (cells.Why.Count > 0 || wanted is null)
        {
            return PlannedRow.Of(cells, title, []);
        }

        if (known.Members.GetValueOrDefault(Same(email)) is { } member)
        {
            return There(cells, title, member == wanted, $"{email} is in the programme already as {known.Words(member)}", "Change that on the people’s page.");
        }

        if (known.Open[Same(email)].FirstOrDefault(i => i.IsOpenAt(ask.Now)) is { } waits)
        {
            var waiting = new RoleAtSchool(waits.Role, waits.SchoolId);
            return There(cells, title, waiting == wanted, $"An invitation to {email} as {known.Words(waiting)} waits already", "Withdraw it on the people’s page first.");
        }

        var place = known.Words(wanted);
        var invitation = invitations.New(ask.User, email, name, wanted, ask.Now);
        FieldChange[] fields = [new("name", "name", "", name), new("email", "mail address", "", email), new("role", "invited as", "", place)];
        return PlannedRow.Of(cells, title, [new PlannedThing(PlaceThing.Invitation, invitation.Id, title, true, fields, db =>
        {
            foreach (var ranOut in known.Open[Same(email)])
            {
                ranOut.WithdrawnAt = ask.Now;
            }

            invitations.Add(db, invitation, known.Programme);
        })], "One mail goes to this address after you have confirmed.");
    }

    private static RoleAtSchool? WantedOf(PlaceCells cells, Known known, string roleCell)
    {
        if (roleCell.Length == 0)
        {
            return null;
        }

        if (!Roles.TryGetValue(Headings.Plain(roleCell), out var role))
        {
            cells.Unclear(ChildWords.IsOfChildren(roleCell) ? ChildWords.Never : $"“{SheetTexts.Shortened(roleCell)}” is no role. Expected: {RoleField.Expected}.");
            return null;
        }

        // A school beside somebody who belongs to none tells where they are found; it is not kept.
        var school = role == Role.Teacher ? known.Schools.Find(cells, cells.Need(School)) : null;
        return new RoleAtSchool(role, school?.Id);
    }

    private static PlannedRow There(PlaceCells cells, string title, bool same, string what, string then)
    {
        if (!same)
        {
            cells.Unclear($"{what}. {then}");
        }

        return PlannedRow.Of(cells, title, [], $"{what}; no second mail goes.");
    }

    private sealed record Known(
        SchoolNames Schools, IReadOnlyList<SchoolChoice> Choices, IReadOnlyDictionary<string, RoleAtSchool> Members, ILookup<string, Invitation> Open, string Programme)
    {
        public string Words(RoleAtSchool at) => RoleAtSchool.Words(at.Role, at.SchoolId, Choices);
    }
}
