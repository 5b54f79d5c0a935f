using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Places.Labels;
using Tankside.Storage;

namespace Tankside.Portal.Readings.WallSheets;

/// <summary>A day of the sheet.</summary>
/// <param name="Closed">Why the school is shut that day, perhaps without a word; null on a school day.</param>
public sealed record SheetDay(DateOnly Day, string? Closed);

/// <summary>What a week's sheet at one tank says.</summary>
/// <param name="Label">Null for who must not have the code, and for a tank without one: the sheet then leaves room for the label.</param>
public sealed record WallSheet(string Code, string Room, string School, IReadOnlyList<SheetDay> Days, TankLabel? Label);

/// <summary>Loads the sheet of a tank for whoever may see the tank.</summary>
public sealed class TankSheets(IDbContextFactory<HatcheryDb> databases, SchoolLabels labels, TimeProvider time)
{
    private const int SchoolWeek = 5;

    /// <summary>Null when there is no such tank for this person.</summary>
    /// <param name="week">Its Monday; null for the week at hand.</param>
    public async Task<WallSheet?> LoadAsync(CurrentUser user, string tankCode, DateOnly? week, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var id = await db.TanksOf(user).Where(t => t.Code == tankCode).Select(t => t.Id).SingleOrDefaultAsync(cancel);
        if (id == Guid.Empty)
        {
            return null;
        }

        var place = (await Surroundings.LoadAsync(db, [id], cancel, now)).Of(id);
        var monday = week ?? PrintChoice.NextWeek(place.Calendar.Clock.Day(now));
        var (friday, school) = (monday.AddDays(SchoolWeek - 1), place.School);
        var closures = await db.Closures.AsNoTracking()
            .Where(c => c.ProgrammeId == user.ProgrammeId && (c.SchoolId == null || c.SchoolId == school.Id) && c.FirstDay <= friday && c.LastDay >= monday)
            .OrderBy(c => c.FirstDay).ToListAsync(cancel);
        var days = Enumerable.Range(0, SchoolWeek).Select(monday.AddDays).Select(day => new SheetDay(
            day, place.Calendar.IsSchoolDay(day) ? null : closures.FirstOrDefault(c => c.FirstDay <= day && day <= c.LastDay)?.Reason ?? ""));
        return new WallSheet(
            place.Tank.Code, place.Room.Name, school.Name, [.. days],
            user.Is(Role.KitHand) ? null : await labels.OfTankAsync(user, tankCode, cancel));
    }
}
