using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Places;

public sealed class SchoolHoursForm
{
    public string? OpensAt { get; set; }

    public string? ClosesAt { get; set; }

    public string? Disinfectant { get; set; }

    /// <summary>The school's version as the person saw it.</summary>
    public int Version { get; set; }
}

/// <summary>A school's hours and what is in its tap water.</summary>
public sealed class EditSchoolHours(IDbContextFactory<HatcheryDb> databases)
{
    public async Task<School?> FindAsync(CurrentUser user, Guid schoolId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Schools.AsNoTracking().SingleOrDefaultAsync(s => s.Id == schoolId && s.ProgrammeId == user.ProgrammeId, cancel);
    }

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public async Task<Notice?> HandleAsync(
        CurrentUser user, Guid schoolId, SchoolHoursForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var school = await db.Schools.SingleAsync(s => s.Id == schoolId && s.ProgrammeId == user.ProgrammeId, cancel);
        var opens = Read(nameof(form.OpensAt), form.OpensAt, refuse);
        var closes = Read(nameof(form.ClosesAt), form.ClosesAt, refuse);
        var named = Enum.TryParse<Disinfectant>(form.Disinfectant, out var disinfectant) && Enum.IsDefined(disinfectant);
        if (!named)
        {
            refuse(nameof(form.Disinfectant), "Choose one; “not known” is an answer.");
        }

        if (opens is not { } from || closes is not { } to || !named)
        {
            return null;
        }

        if (to <= from)
        {
            refuse(nameof(form.ClosesAt), "The school closes after it opens.");
            return null;
        }

        if (school.Version != form.Version)
        {
            return Clash(school, form, refuse);
        }

        (school.OpensAt, school.ClosesAt, school.Disinfectant) = (from, to, disinfectant);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return Clash(await db.Schools.AsNoTracking().SingleAsync(s => s.Id == schoolId, cancel), form, refuse);
        }

        return new Notice(true, $"Saved: {school.Name}, {Hours(school)}, {Word(disinfectant)}.");
    }

    public static string Hours(School school) => string.Create(CultureInfo.InvariantCulture, $"{school.OpensAt:HH:mm} to {school.ClosesAt:HH:mm}");

    public static string Word(Disinfectant disinfectant) => disinfectant switch
    {
        Disinfectant.Unknown => "not known",
        Disinfectant.None => "no disinfectant",
        Disinfectant.Chlorine => "chlorine",
        Disinfectant.Chloramine => "chloramine",
    };

    /// <summary>Somebody else saved in between: theirs is told, what was typed is kept, and sending it again saves it.</summary>
    private static Notice? Clash(School theirs, SchoolHoursForm form, Action<string, string> refuse)
    {
        form.Version = theirs.Version;
        refuse("", $"Somebody changed this school meanwhile: it is now {Hours(theirs)}, {Word(theirs.Disinfectant)}. What you typed is kept below; send it again if it should replace that.");
        return null;
    }

    private static TimeOnly? Read(string field, string? typed, Action<string, string> refuse)
    {
        if (TimeOnly.TryParse(typed, CultureInfo.InvariantCulture, out var time))
        {
            return time;
        }

        refuse(field, "Give a time of day, such as 08:00.");
        return null;
    }
}
