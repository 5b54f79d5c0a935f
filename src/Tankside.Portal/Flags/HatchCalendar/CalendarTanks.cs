using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags.HatchCalendar;

/// <summary>One tank with fish and what it still has before it; a stage without a forecast is null.</summary>
/// <param name="WhyNoDate">Why the hatch cannot be dated; null when it can.</param>
public sealed record CalendarTank(TankGlance Glance, LotProfile Lot, StageOnCalendar? Hatch, StageOnCalendar? SwimUp, string? WhyNoDate)
{
    public string Code => Glance.Code;

    /// <summary>True when a break is likely to make trouble for a stage that has not come yet.</summary>
    public bool NeedsSteering => Ahead(Hatch) || Ahead(SwimUp);

    /// <summary>The next stage that nobody has reported; null when none is left or none can be dated.</summary>
    public (string Name, StageOnCalendar On)? Next =>
        Glance.Development!.Stage == LifeStage.Egg && Hatch is { SeenOn: null } hatch ? ("hatch", hatch)
        : Glance.Development.Stage != LifeStage.Fry && SwimUp is { SeenOn: null } swim ? ("swim-up", swim)
        : null;

    private static bool Ahead(StageOnCalendar? stage) => stage is { SeenOn: null, Break: not null };
}

/// <summary>Everything that the hatch calendar shows, at one moment.</summary>
/// <param name="Waiting">Tanks that have no eggs yet.</param>
/// <param name="Closures">Named closures of the schools shown, ascending.</param>
public sealed record CalendarNow(
    DateTime At, ProgrammeClock Clock, string Programme, IReadOnlyList<CalendarTank> Tanks, int Waiting, IReadOnlyList<Closure> Closures)
{
    public TimeWords Time { get; init; } = new(Clock, At);
}

/// <summary>Loads the tanks of whoever asks, each set against its own school's days; a fixed number of queries, however many there are.</summary>
public sealed class CalendarTanks(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<CalendarNow> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await LoadAsync(db, db.TanksOf(user), user.ProgrammeId, cancel);
    }

    /// <param name="tanks">Those that may be shown.</param>
    public async Task<CalendarNow> LoadAsync(HatcheryDb db, IQueryable<Tank> tanks, Guid programmeId, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var open = await tanks.Where(t => t.ClosedAt == null).Select(t => t.Id).ToListAsync(cancel);
        var glances = await TankGlances.LoadAsync(db, open, now, cancel);
        var shown = glances.Where(g => g is { Development: not null, Lot: not null, Fish: > 0 }).Select(g => On(g, now)).ToList();
        var schools = glances.Select(g => g.Place.School.Id).ToHashSet();
        var closures = await db.Closures.AsNoTracking().Where(c => c.ProgrammeId == programmeId).OrderBy(c => c.FirstDay).ToListAsync(cancel);
        return new CalendarNow(
            now, ProgrammeClock.Of(programme.TimeZone), programme.Name, shown, glances.Count(g => g.Lot is null),
            [.. closures.Where(c => c.SchoolId is null || schools.Contains(c.SchoolId.Value))]);
    }

    private static CalendarTank On(TankGlance glance, DateTime now)
    {
        var (place, development) = (glance.Place, glance.Development!);
        var today = place.Calendar.Clock.Day(now);
        return new CalendarTank(
            glance, glance.Lot!,
            StageOnCalendar.Hatch(development, glance.Days, place.Calendar, today, place.Limits),
            StageOnCalendar.SwimUp(development, glance.Days, place.Calendar, today, place.Limits),
            StageWords.WhyNoDate(glance.Lot!, development, Science.Eggs.Stage.Hatch));
    }
}
