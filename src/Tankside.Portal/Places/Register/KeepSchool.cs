using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Register;

/// <summary>Adds a school by hand, or changes it.</summary>
public sealed class KeepSchool(IDbContextFactory<HatcheryDb> databases)
{
    public Task<Notice?> AddAsync(CurrentUser user, SchoolForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAddAsync(user, form, refuse, cancel), refuse);

    public Task<Notice?> ChangeAsync(CurrentUser user, Guid schoolId, SchoolForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryChangeAsync(user, schoolId, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAddAsync(CurrentUser user, SchoolForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Schools.AnyAsync(s => s.Id == form.Id && s.ProgrammeId == user.ProgrammeId, cancel))
        {
            return new Notice(true, "This school was added already.");
        }

        if (await ReadAsync(db, user, form.Id, form, refuse, cancel) is not { } school)
        {
            return null;
        }

        db.Schools.Add(school);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Added: {school.Name}, open {SchoolWords.Hours(school)}. Next its rooms.");
    }

    private async Task<Notice?> TryChangeAsync(CurrentUser user, Guid schoolId, SchoolForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Schools.SingleOrDefaultAsync(s => s.Id == schoolId && s.ProgrammeId == user.ProgrammeId, cancel) is not { } school)
        {
            refuse("", "This school was taken out meanwhile. Nothing was saved.");
            return null;
        }

        if (await ReadAsync(db, user, schoolId, form, refuse, cancel) is not { } typed)
        {
            return null;
        }

        if (school.Version != form.Version)
        {
            form.Version = school.Version;
            var theirs = TypedCells.Differences(SchoolFields.All, school, typed);
            refuse("", $"Somebody changed this school meanwhile: it is now {school.Name}{(theirs.Length == 0 ? "" : $", {theirs}")}. What you typed is kept below; send it again if it should replace that.");
            return null;
        }

        school.Name = typed.Name;
        foreach (var field in SchoolFields.All)
        {
            field.Set(school, field.Get(typed));
        }

        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Saved: {school.Name}, {SchoolWords.Hours(school)}, {SchoolWords.Of(school.Disinfectant)}.");
    }

    private static async Task<School?> ReadAsync(
        HatcheryDb db, CurrentUser user, Guid id, SchoolForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse);
        var school = new School { Id = id, ProgrammeId = user.ProgrammeId, Area = "", Name = typed.Name(nameof(form.Name), form.Name, "Type the school’s name.") };
        new TypedFieldsOf<School>(SchoolFields.All, form.Cells).ReadInto(school, typed);
        if (typed.AllGood && school.ClosesAt <= school.OpensAt)
        {
            typed.Refuse(nameof(form.ClosesAt), "The school closes after it opens.");
        }

        if (typed.AllGood && school.TakesDeliveries is var (from, by) && by <= from)
        {
            typed.Refuse(nameof(form.DeliverBy), $"Between {FieldReads.Of(from)} and {FieldReads.Of(by)} nobody could deliver. Expected: a stretch within the school’s hours.");
        }

        var others = await db.Schools.Where(s => s.ProgrammeId == user.ProgrammeId && s.Id != id).Select(s => s.Name).ToListAsync(cancel);
        if (others.Any(n => FieldReads.Same(n) == FieldReads.Same(school.Name)))
        {
            typed.Refuse(nameof(form.Name), $"A school called {school.Name} is in the register already.");
        }

        return typed.AllGood ? school : null;
    }
}
