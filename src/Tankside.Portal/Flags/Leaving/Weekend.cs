using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Leaving;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Leaving;

/// <summary>A tank with fish, and how it would come through the closed days.</summary>
public sealed record LeftTank(TankPlace Place, TankRecord Record, LeaveAnswer Answer, NotKnown? NotKnown)
{
    public bool NeedsSomething => Answer.Verdict != LeaveVerdict.Safe;

    public LeaveWords WordsAt(DateTime now, Say? reader = null) => new(Answer, Record, Place.Programme.ScreenUnit, now, reader);
}

/// <summary>Every tank that somebody may see, as it would be left.</summary>
/// <param name="Tanks">The most fish expected lost first, then the least time.</param>
/// <param name="Asked">True when it is past noon of a last school day, or closed, for at least one of them.</param>
public sealed record WeekendNow(DateTime At, IReadOnlyList<LeftTank> Tanks, bool Asked, NotKnownOfProgramme? NotKnown, ProgrammeClock Clock);

/// <summary>Loads the tanks of whoever asks and judges whether they may be left.</summary>
public sealed class Weekend(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<WeekendNow> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var zone = await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel);
        var clock = ProgrammeClock.Of(zone);
        var ids = await db.TanksOf(user).Where(t => db.Receipts.Any(r => r.TankId == t.Id)).Select(t => t.Id).ToListAsync(cancel);
        var hours = await NotKnownHours.LoadAsync(db, ids, now, cancel);
        var tanks = await LeftAsync(db, user, hours, now, cancel);
        var first = clock.Day(hours.FirstEggs ?? now);
        return new WeekendNow(now, tanks, tanks.Any(t => IsAsked(t, now)), NotKnownOfProgramme.Of(hours.All, clock, first, now), clock);
    }

    /// <summary>The tanks about which the question is asked just now; empty on all other days, without judging any.</summary>
    public async Task<IReadOnlyList<LeftTank>> AskedAsync(CurrentUser user, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var asked = await AskedSchoolsAsync(db, user, now, cancel);
        if (asked.Count == 0)
        {
            return [];
        }

        var ids = await OpenTanks(db, user).Where(t => db.Classrooms.Any(r => r.Id == t.ClassroomId && asked.Contains(r.SchoolId))).Select(t => t.Id).ToListAsync(cancel);
        return Judged(await TankRecords.LoadAsync(db, ids, now, cancel), await Surroundings.LoadAsync(db, ids, cancel), null, now);
    }

    /// <summary>It is a school's calendar that asks: of a programme with thousands of tanks no tank is looked at before.</summary>
    private static async Task<List<Guid>> AskedSchoolsAsync(HatcheryDb db, CurrentUser user, DateTime now, CancellationToken cancel)
    {
        var open = OpenTanks(db, user);
        var schools = await (
            from school in db.Schools.AsNoTracking()
            join programme in db.Programmes on school.ProgrammeId equals programme.Id
            join stamp in db.WaysStamps on programme.Id equals stamp.ProgrammeId into stamps
            from stamp in stamps.DefaultIfEmpty()
            where open.Any(t => db.Classrooms.Any(r => r.Id == t.ClassroomId && r.SchoolId == school.Id))
            select new { school, programme, Stamp = stamp == null ? null : (long?)stamp.Stamp }).ToListAsync(cancel);
        if (schools.Count == 0)
        {
            return [];
        }

        var ways = await ProgrammeWays.OfAsync(db, user.ProgrammeId, schools[0].Stamp, cancel);
        var limits = new LimitSet(ways.OwnSettings);
        return [.. schools.Where(s => IsAsked(ways.CalendarOf(s.school, s.programme, null))).Select(s => s.school.Id)];

        bool IsAsked(SchoolCalendar calendar) => SafeToLeave.IsAsked(ClosedStretch.At(calendar, now), calendar, limits, now);
    }

    public static LeftTank? Of(TankPlace place, TankRecord record, NotKnown? notKnown, DateTime now) =>
        place.Tank.ClosedAt is null && SafeToLeave.Judge(record, now) is { } answer ? new LeftTank(place, record, answer, notKnown) : null;

    public static bool IsAsked(LeftTank tank, DateTime now) =>
        SafeToLeave.IsAsked(tank.Answer.Stretch, tank.Place.Calendar, tank.Record.Limits, now);

    private static IQueryable<Tank> OpenTanks(HatcheryDb db, CurrentUser user) =>
        db.TanksOf(user).Where(t => t.ClosedAt == null && db.Receipts.Any(r => r.TankId == t.Id));

    private static async Task<IReadOnlyList<LeftTank>> LeftAsync(
        HatcheryDb db, CurrentUser user, NotKnownHours hours, DateTime now, CancellationToken cancel)
    {
        var ids = await OpenTanks(db, user).Select(t => t.Id).ToListAsync(cancel);
        var places = await Surroundings.LoadAsync(db, ids, cancel);
        return Judged(await TankRecords.LoadAsync(db, ids, now, cancel), places, hours, now);
    }

    private static IReadOnlyList<LeftTank> Judged(IReadOnlyList<TankRecord> records, Surroundings places, NotKnownHours? hours, DateTime now) =>
    [
        .. records.Select(r => Of(places.Of(r.Tank.Id), r, hours?.Of(r.Tank.Id), now)).OfType<LeftTank>()
            .OrderByDescending(t => t.Answer.ExpectedLoss)
            .ThenBy(t => t.Answer.Worst.PassesAt?.Low ?? DateTime.MaxValue)
            .ThenBy(t => t.Place.Tank.Code, StringComparer.Ordinal),
    ];
}
