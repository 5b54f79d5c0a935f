using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Sweeps;
using Tankside.Portal.Readings;
using Tankside.Portal.Seasons.SetUp;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Numbers;

public sealed class ProgrammeForm
{
    public string? Name { get; set; }

    public string? TimeZone { get; set; }

    public string? ScreenUnit { get; set; }

    public string? DigestAt { get; set; }

    public string? SecondStepFor { get; set; }

    /// <summary>The programme's version as the person saw it.</summary>
    public int Version { get; set; }

    public static ProgrammeForm Of(Programme programme) => new()
    {
        Name = programme.Name,
        TimeZone = programme.TimeZone,
        ScreenUnit = programme.ScreenUnit.ToString(),
        DigestAt = programme.DigestAt.ToString("HH:mm", CultureInfo.InvariantCulture),
        SecondStepFor = programme.SecondStepFor.ToString(),
        Version = programme.Version,
    };

    /// <summary>Who has to have a second step, in the order of the choice.</summary>
    public static IReadOnlyDictionary<StepDemand, string> Demands { get; } = new Dictionary<StepDemand, string>
    {
        [StepDemand.Nobody] = "nobody: everybody decides for themselves",
        [StepDemand.Leads] = "programme leads",
        [StepDemand.LeadsAndCoordinators] = "programme leads and coordinators",
        [StepDemand.Everybody] = "everybody who signs in",
    };
}

/// <summary>The programme itself: its name, its clock, the unit on its screens, the hour of its morning mail, and who has to sign in in two steps.</summary>
public sealed class EditProgramme(IDbContextFactory<HatcheryDb> databases, NewFacts newFacts, RoundFeed feed, TimeProvider time)
{
    public async Task<Programme> FindAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == user.ProgrammeId, cancel);
    }

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public async Task<Notice?> SaveAsync(CurrentUser user, ProgrammeForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse);
        var name = typed.Name(nameof(form.Name), form.Name, "Give the programme’s name.");
        var unit = typed.Choice<TemperatureUnit>(nameof(form.ScreenUnit), form.ScreenUnit, "Choose °F or °C.");
        var demand = typed.Choice<StepDemand>(nameof(form.SecondStepFor), form.SecondStepFor, "Choose who has to have a second step.");
        if (!TimeOnly.TryParse(form.DigestAt, CultureInfo.InvariantCulture, out var hour))
        {
            typed.Refuse(nameof(form.DigestAt), "Give a time of day, such as 06:30.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.SingleAsync(p => p.Id == user.ProgrammeId, cancel);
        await CheckZoneAsync(db, programme, form, typed, cancel);
        if (await db.Programmes.AnyAsync(p => p.Id != programme.Id && p.Name == name, cancel))
        {
            typed.Refuse(nameof(form.Name), "Another programme here has this name.");
        }

        // Every demand covers the lead who makes it: without a step of their own they would shut themselves out.
        if (demand != StepDemand.Nobody && demand != programme.SecondStepFor
            && await db.Users.SingleAsync(p => p.Id == user.PersonId, cancel) is { IsDemo: false } me && !await OwedStep.HasOneAsync(db, me))
        {
            typed.Refuse(nameof(form.SecondStepFor), "You have no second step yourself, and this would ask one of you at once. Set up a code or a passkey on My page, under How you sign in, then come back. Nothing was saved.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        if (programme.Version != form.Version)
        {
            return Clash(programme, form, refuse);
        }

        (programme.Name, programme.TimeZone, programme.ScreenUnit, programme.DigestAt, programme.SecondStepFor) = (name, form.TimeZone!, unit, hour, demand);
        db.HaveJudged(await db.Tanks.Where(t => t.ProgrammeId == programme.Id && t.ClosedAt == null).Select(t => t.Id).ToListAsync(cancel), Instants.ToMillisecond(time.GetUtcNow().UtcDateTime));
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return Clash(await FindAsync(user, cancel), form, refuse);
        }

        newFacts.Tell();
        feed.Tell([programme.Id]);
        return new Notice(true, $"Saved: {name}, {form.TimeZone}, °{unit}, morning mail at {hour.ToString("HH:mm", CultureInfo.InvariantCulture)}, second step for {ProgrammeForm.Demands[demand]}.");
    }

    /// <summary>Readings are counted by local days. Once there are any, only a zone whose clocks agreed all along can take over.</summary>
    private async Task CheckZoneAsync(HatcheryDb db, Programme programme, ProgrammeForm form, TypedFields typed, CancellationToken cancel)
    {
        if (form.TimeZone == programme.TimeZone)
        {
            return;
        }

        if (!TimeZones.All.Contains(form.TimeZone!))
        {
            typed.Refuse(nameof(form.TimeZone), "Choose a time zone from the list.");
            return;
        }

        var first = await db.Readings.Where(r => db.Tanks.Any(t => t.Id == r.TankId && t.ProgrammeId == programme.Id)).MinAsync(r => (DateTime?)r.At, cancel);
        var (old, next) = (ProgrammeClock.Of(programme.TimeZone).Zone, ProgrammeClock.Of(form.TimeZone!).Zone);
        for (var at = first; at <= time.GetUtcNow().UtcDateTime; at = at.Value.AddHours(1))
        {
            if (old.GetUtcOffset(at.Value) != next.GetUtcOffset(at.Value))
            {
                typed.Refuse(nameof(form.TimeZone), $"Readings are stored and counted by the days of {programme.TimeZone}, and the clocks of {form.TimeZone} differed since. The zone stays as it is.");
                return;
            }
        }
    }

    private static Notice? Clash(Programme theirs, ProgrammeForm form, Action<string, string> refuse)
    {
        form.Version = theirs.Version;
        refuse("", $"Somebody saved the programme or one of its numbers meanwhile: it is now {theirs.Name}, {theirs.TimeZone}, °{theirs.ScreenUnit}, morning mail at {theirs.DigestAt.ToString("HH:mm", CultureInfo.InvariantCulture)}, second step for {ProgrammeForm.Demands[theirs.SecondStepFor]}. What you typed is kept below; send it again if it should replace that.");
        return null;
    }
}
