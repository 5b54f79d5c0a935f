using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Science.Eggs;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

/// <summary>Adds a permit as the agency's paper words it, or changes it as far as the releases on it allow.</summary>
public sealed class KeepPermit(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public Task<Notice?> AddAsync(CurrentUser user, PermitForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAddAsync(user, form, refuse, cancel), refuse);

    /// <summary>
    /// A release raises the permit's version, so of a release and a change at the same moment the second is decided with the first. Null also when there is no such
    /// permit; the page has found that before.
    /// </summary>
    public Task<Notice?> ChangeAsync(CurrentUser user, Guid permitId, PermitForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryChangeAsync(user, permitId, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAddAsync(CurrentUser user, PermitForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Permits.AnyAsync(p => p.Id == form.Id, cancel))
        {
            return new Notice(true, "This permit was added already.");
        }

        var permit = new Permit { Id = form.Id, ProgrammeId = user.ProgrammeId, Number = "", Water = "" };
        if (!await ReadAsync(db, permit, form, new TypedFields(refuse), cancel))
        {
            return null;
        }

        db.Permits.Add(permit);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Added: permit {permit.Number}, {Figures.Of(permit.Fish)} {SpeciesCodes.CommonName(permit.Species)} into {permit.Water}.");
    }

    private async Task<Notice?> TryChangeAsync(CurrentUser user, Guid permitId, PermitForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Permits.SingleOrDefaultAsync(p => p.Id == permitId && p.ProgrammeId == user.ProgrammeId, cancel) is not { } permit)
        {
            return null;
        }

        var typed = new TypedFields(refuse);
        if (permit.Version != form.Version)
        {
            typed.Refuse("", $"Permit {permit.Number} was changed, or fish were let go on it, since you opened this page. Nothing was saved. Open the page again, look, and then change it.");
            return null;
        }

        var releases = await StandingAsync(db, permit, cancel);
        if (await ReadAsync(db, permit, form, typed, cancel))
        {
            foreach (var why in PermitRules.CheckEdit(permit, releases))
            {
                typed.Refuse(FieldOf(why), Word(why, releases));
            }
        }

        if (!typed.AllGood)
        {
            return null;
        }

        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Kept: permit {permit.Number}, {Figures.Of(permit.Fish)} {SpeciesCodes.CommonName(permit.Species)} into {permit.Water}.");
    }

    private static async Task<bool> ReadAsync(HatcheryDb db, Permit permit, PermitForm form, TypedFields typed, CancellationToken cancel)
    {
        permit.Number = typed.Name(nameof(form.Number), form.Number, "Type the number or name on the paper.");
        permit.Holder = typed.Text(nameof(form.Holder), form.Holder);
        permit.Species = typed.Choice<Species>(nameof(form.Species), form.Species, "Choose the species on the paper.");
        permit.Water = typed.Name(nameof(form.Water), form.Water, "Name the water as the paper does.");
        permit.Fish = typed.Count(nameof(form.Fish), form.Fish, "Type how many fish it allows.");
        permit.From = typed.Day(nameof(form.From), form.From);
        permit.To = typed.Day(nameof(form.To), form.To);
        permit.HoldDays = typed.OptionalCount(nameof(form.HoldDays), form.HoldDays);
        permit.Conditions = typed.Text(nameof(form.Conditions), form.Conditions);
        permit.Document = typed.Text(nameof(form.Document), form.Document);
        permit.ResponsibleId = string.IsNullOrEmpty(form.Responsible) ? null : typed.Choice(nameof(form.Responsible), form.Responsible, "Choose a person of the list.");
        RefuseWhen(permit.Fish is <= 0 or > 10_000_000, nameof(form.Fish), "Type how many fish it allows, 1 or more.");
        RefuseWhen(permit.To < permit.From, nameof(form.To), "The last day is before the first.");
        RefuseWhen(permit.HoldDays is < 1 or > 400, nameof(form.HoldDays), "Type 1 to 400 days, or leave it empty if the paper sets no such limit.");
        RefuseWhen(
            permit.ResponsibleId is { } person && !await SendsReports(db, permit.ProgrammeId).AnyAsync(m => m.PersonId == person, cancel),
            nameof(form.Responsible), "This person is not a coordinator or lead of the programme any more. Choose another.");
        RefuseWhen(
            await db.Permits.AnyAsync(p => p.ProgrammeId == permit.ProgrammeId && p.Number == permit.Number && p.Id != permit.Id, cancel),
            nameof(form.Number), $"Permit “{permit.Number}” is in the list already.");
        return typed.AllGood;

        void RefuseWhen(bool when, string field, string why)
        {
            if (typed.AllGood && when)
            {
                typed.Refuse(field, why);
            }
        }
    }

    /// <summary>Those who may answer for a permit's reports.</summary>
    public static IQueryable<Membership> SendsReports(HatcheryDb db, Guid programmeId) =>
        db.Memberships.Where(m => m.ProgrammeId == programmeId && (m.Role == Role.Coordinator || m.Role == Role.ProgrammeLead));

    private async Task<IReadOnlyList<StandingRelease>> StandingAsync(HatcheryDb db, Permit permit, CancellationToken cancel)
    {
        var season = await SeasonAtHand.LoadAsync(db, permit.ProgrammeId, time, cancel);
        var rows = await (
            from release in db.Releases
            join site in db.ReleaseSites on release.SiteId equals site.Id
            where release.PermitId == permit.Id && release.WithdrawnAt == null
            select new { release.At, release.Fish, site.Water }).ToListAsync(cancel);
        // What stands under the permit was of its species when it was entered.
        var species = permit.Species;
        return [.. rows.Select(r => new StandingRelease(season.Clock.Day(r.At), species, r.Water, r.Fish))];
    }

    private static string FieldOf(PermitEditRefusal why) => why switch
    {
        PermitEditRefusal.FewerThanReleased => nameof(PermitForm.Fish),
        PermitEditRefusal.ReleasedOnOtherDays => nameof(PermitForm.From),
        PermitEditRefusal.ReleasedOtherSpecies => nameof(PermitForm.Species),
        PermitEditRefusal.ReleasedElsewhere => nameof(PermitForm.Water),
    };

    private static string Word(PermitEditRefusal why, IReadOnlyList<StandingRelease> releases) => why switch
    {
        PermitEditRefusal.FewerThanReleased => $"{Figures.Of(releases.Sum(r => r.Fish))} fish are released on it already. It cannot allow fewer.",
        PermitEditRefusal.ReleasedOnOtherDays =>
            $"Fish were let go on it from {SeasonAtHand.Day(releases.Min(r => r.On))} to {SeasonAtHand.Day(releases.Max(r => r.On))}. Its days have to cover them.",
        PermitEditRefusal.ReleasedOtherSpecies => $"{SpeciesCodes.CommonName(releases[0].Species!.Value)} were let go on it. Add another permit for another species.",
        PermitEditRefusal.ReleasedElsewhere => $"Fish were let go on it into {releases[0].Water}. Add another permit for another water.",
    };
}
