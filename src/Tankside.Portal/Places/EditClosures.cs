using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Places;

public sealed class ClosureForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one closure.</summary>
    public Guid Id { get; set; }

    /// <summary>Empty for every school of the programme.</summary>
    public string? School { get; set; }

    public string? FirstDay { get; set; }

    public string? LastDay { get; set; }

    public string? Reason { get; set; }
}

/// <summary>A closure with the school it is for, or null for all.</summary>
public sealed record ListedClosure(Closure Closure, string? School);

/// <summary>The days on which schools are shut, added and removed. Silence and hours left are judged by them within a minute.</summary>
public sealed class EditClosures(IDbContextFactory<HatcheryDb> databases)
{
    /// <summary>Longer than any school's summer; a longer closure is a slip in the year (no source).</summary>
    public const int MostDays = 120;

    public async Task<IReadOnlyList<ListedClosure>> ListAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await (
            from closure in db.Closures.AsNoTracking()
            join school in db.Schools on closure.SchoolId equals school.Id into schools
            from school in schools.DefaultIfEmpty()
            where closure.ProgrammeId == programmeId
            orderby closure.FirstDay, closure.LastDay
            select new ListedClosure(closure, school == null ? null : school.Name)).ToListAsync(cancel);
    }

    public async Task<IReadOnlyList<School>> SchoolsAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Schools.AsNoTracking().Where(s => s.ProgrammeId == programmeId).OrderBy(s => s.Name).ToListAsync(cancel);
    }

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public async Task<Notice?> AddAsync(CurrentUser user, ClosureForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await ReadAsync(db, user, form, refuse, cancel) is not { } closure)
        {
            return null;
        }

        var same = await db.Closures.AnyAsync(
            c => c.ProgrammeId == user.ProgrammeId && c.SchoolId == closure.SchoolId && c.FirstDay == closure.FirstDay && c.LastDay == closure.LastDay, cancel);
        if (!same)
        {
            db.Closures.Add(closure);
            try
            {
                await db.SaveChangesAsync(cancel);
            }
            catch (DbUpdateException e) when (e.IsUniqueViolation())
            {
                // The same form was sent twice at once; the other one is saved.
            }
        }

        return new Notice(true, same ? $"{Words(closure)} is in the list already." : $"Added: {Words(closure)}.");
    }

    public async Task<Notice> RemoveAsync(CurrentUser user, Guid closureId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Closures.SingleOrDefaultAsync(c => c.Id == closureId && c.ProgrammeId == user.ProgrammeId, cancel) is not { } closure)
        {
            return new Notice(true, "This closure is gone already.");
        }

        db.Closures.Remove(closure);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return new Notice(true, "This closure is gone already.");
        }

        return new Notice(true, $"Removed: {Words(closure)}. These are school days again.");
    }

    public static string Days(Closure closure) => closure.FirstDay == closure.LastDay
        ? Day(closure.FirstDay)
        : $"{Day(closure.FirstDay)} to {Day(closure.LastDay)}";

    private static string Words(Closure closure) => $"{closure.Reason}, {Days(closure)}";

    private static string Day(DateOnly day) => day.ToString("ddd d MMM yyyy", CultureInfo.InvariantCulture);

    private static async Task<Closure?> ReadAsync(
        HatcheryDb db, CurrentUser user, ClosureForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var good = true;
        var first = Read(nameof(form.FirstDay), form.FirstDay, null);
        var last = Read(nameof(form.LastDay), form.LastDay, first);
        var reason = form.Reason?.Trim() ?? "";
        Guid? school = null;
        if (!string.IsNullOrEmpty(form.School))
        {
            school = Guid.TryParse(form.School, out var id) ? id : Guid.Empty;
            Refuse(!await db.Schools.AnyAsync(s => s.Id == school && s.ProgrammeId == user.ProgrammeId, cancel), nameof(form.School), "Choose a school, or all of them.");
        }

        Refuse(reason.Length == 0, nameof(form.Reason), "Say why, such as “Winter break”.");
        Refuse(reason.Length > 80, nameof(form.Reason), "At most 80 characters, please.");
        Refuse(last < first, nameof(form.LastDay), "The last day is before the first.");
        Refuse(last.DayNumber - first.DayNumber >= MostDays, nameof(form.LastDay), $"That is more than {MostDays} days. Please look at the years.");
        return !good ? null : new Closure
        {
            Id = form.Id,
            ProgrammeId = user.ProgrammeId,
            SchoolId = school,
            FirstDay = first,
            LastDay = last,
            Reason = reason,
        };

        DateOnly Read(string field, string? typed, DateOnly? whenEmpty)
        {
            if (whenEmpty is { } day && string.IsNullOrWhiteSpace(typed))
            {
                return day;
            }

            var read = DateOnly.TryParseExact(typed?.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var value)
                && value.Year is > 2000 and < 2100;
            Refuse(!read, field, "Give the day, such as 2027-02-15.");
            return read ? value : whenEmpty ?? new DateOnly(2001, 1, 1);
        }

        void Refuse(bool when, string field, string why)
        {
            if (when)
            {
                good = false;
                refuse(field, why);
            }
        }
    }
}
