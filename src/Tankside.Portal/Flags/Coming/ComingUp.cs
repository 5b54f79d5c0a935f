using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Eggs.Runs;
using Tankside.Portal.Flags.HatchCalendar;
using Tankside.Portal.Kit;
using Tankside.Portal.Places;
using Tankside.Portal.Releases.Bookings;
using Tankside.Portal.Releases.Due;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Coming;

/// <summary>What comes, when, and the page on which it is dealt with.</summary>
/// <param name="IsForecast">True for a range of days in which it is expected, false for days that are set.</param>
/// <param name="Count">How many lines of the same kind this one stands for.</param>
public sealed record ComingLine(DateOnly First, DateOnly Last, string What, string Where, string Address, bool IsForecast = false, int Count = 1);

/// <summary>What the calendars, plans and promises hold for one person in the days ahead; nothing here is worked out a second time.</summary>
public sealed class ComingUp(IDbContextFactory<HatcheryDb> databases, CalendarTanks calendar, BookingBoard bookings, RunBoard runs, TimeProvider time)
{
    /// <summary>In the order of their days. What is late stands at today.</summary>
    /// <param name="user">Whose days they are.</param>
    /// <param name="days">How far it looks ahead.</param>
    /// <param name="say">The reader's language; a kit hand's lines are said in it, the others in English.</param>
    /// <param name="cancel">Given up by the asker.</param>
    public async Task<(TimeWords Time, IReadOnlyList<ComingLine> Lines)> LoadAsync(CurrentUser user, int days, Say say, CancellationToken cancel)
    {
        var clock = await ClockAsync(user, cancel);
        var words = new TimeWords(clock, time.GetUtcNow().UtcDateTime, say);
        var (from, to) = (words.Today, words.Today.AddDays(days));
        List<ComingLine> coming = [];
        if (user.Is(Role.Teacher, Role.Coordinator, Role.ProgrammeLead))
        {
            var now = await calendar.LoadAsync(user, cancel);
            coming.AddRange(Stages(now));
            coming.AddRange(await ClosuresAsync(now, cancel));
        }

        if (user.Is(Role.Teacher, Role.Coordinator, Role.ProgrammeLead, Role.AgencyContact))
        {
            coming.AddRange(await ReleasesAsync(user, words.Today, cancel));
        }

        if (user.Is(Role.Coordinator, Role.ProgrammeLead, Role.AgencyContact))
        {
            coming.AddRange(await ReportsAsync(user, cancel));
        }

        if (user.Is(Role.Coordinator, Role.ProgrammeLead))
        {
            coming.AddRange((await runs.LinesAsync(user, cancel)).Select(r => new ComingLine(
                r.Run.On, r.Run.On, $"Delivery run {r.Run.Name}", CountWords.Count(r.Stops, "stop", "stops"), $"/runs/{r.Run.Id}")));
            coming.AddRange(await PromisesAsync(user, clock, words, cancel));
        }

        if (user.Is(Role.KitHand))
        {
            coming.AddRange(await KitAsync(user, words, cancel));
        }

        return (words, [.. coming.Where(c => c.Last >= from && c.First <= to).OrderBy(c => c.First).ThenBy(c => c.Last).ThenBy(c => c.Where, StringComparer.Ordinal)]);
    }

    private async Task<ProgrammeClock> ClockAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return ProgrammeClock.Of(await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel));
    }

    private static IEnumerable<ComingLine> Stages(CalendarNow now) =>
        from tank in now.Tanks
        from stage in new[] { (Name: "Hatch", On: tank.Hatch), (Name: "Swim-up", On: tank.SwimUp) }
        where stage.On is { SeenOn: null }
        let forecast = stage.On.Forecast
        select new ComingLine(
            forecast.Low80, forecast.High80, stage.Name,
            $"{tank.Code}, {tank.Glance.Place.School.Name}, {tank.Glance.Place.Room.Name}", $"/tanks/{tank.Code}", IsForecast: true);

    private async Task<IEnumerable<ComingLine>> ClosuresAsync(CalendarNow now, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var ids = now.Closures.Select(c => c.SchoolId).OfType<Guid>().Distinct().ToList();
        var schools = await db.Schools.Where(s => ids.Contains(s.Id)).ToDictionaryAsync(s => s.Id, s => s.Name, cancel);
        return now.Closures.Select(c => new ComingLine(
            c.FirstDay, c.LastDay, $"Closed: {c.Reason}", c.SchoolId is { } school ? schools[school] : "all schools", "/weekend"));
    }

    private async Task<IEnumerable<ComingLine>> ReleasesAsync(CurrentUser user, DateOnly today, CancellationToken cancel)
    {
        var board = await bookings.LoadAsync(user, cancel);
        var settled =
            from seen in board.Bookings
            where seen.Booking is { State: BookingState.Settled, Slot: not null }
            let slot = seen.Booking.Slot!.Value
            select new ComingLine(
                slot.On, slot.On, $"Release day, {BookingWords.Of(slot.Part)}; {BookingWords.Agency(seen.Booking)}",
                $"{seen.Codes}, {seen.School.Name}, at {board.Sites[slot.SiteId].Name}", $"/releases/bookings/{seen.Booking.Id}");
        // A wish that nobody has answered waits today, and every day until somebody does.
        var asked =
            from seen in board.Bookings
            where seen.Booking.State == BookingState.Asked && user.Is(Role.Coordinator, Role.ProgrammeLead)
            select new ComingLine(today, today, "A release day is asked for", $"{seen.Codes}, {seen.School.Name}", $"/releases/bookings/{seen.Booking.Id}/settle");
        return settled.Concat(asked);
    }

    private async Task<IEnumerable<ComingLine>> ReportsAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var due = await ReportsDue.LoadAsync(db, user.ProgrammeId, time, cancel);
        var today = due.Season.Today;
        return due.Open.Select(r => new ComingLine(
            r.DueOn < today ? today : r.DueOn, r.DueOn < today ? today : r.DueOn,
            r.DueOn < today ? "Report is late" : r.IsNil ? "Nil report is due" : "Report is due",
            $"permit {r.Permit.Number}{(r.IsNil ? "" : $", {r.Tank}, {r.School}")}", user.Is(Role.AgencyContact) ? "/agency" : "/releases/due"));
    }

    private async Task<IEnumerable<ComingLine>> PromisesAsync(CurrentUser user, ProgrammeClock clock, TimeWords words, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var promised = await (
            from flag in db.Flags.AsNoTracking()
            join tank in db.TanksOf(user) on flag.TankId equals tank.Id
            where flag.SettledAt == null && flag.PromiseDue != null
            select new { tank.Code, flag.Kind, Due = flag.PromiseDue!.Value }).ToListAsync(cancel);
        return promised.Select(p => new ComingLine(
            clock.Day(p.Due), clock.Day(p.Due), $"Promised for {words.When(p.Due)}", $"{p.Code}: {FlagWords.Of(p.Kind)}", $"/tanks/{p.Code}"));
    }

    private async Task<IEnumerable<ComingLine>> KitAsync(CurrentUser user, TimeWords words, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var pieces = await db.KitItems.AsNoTracking()
            .Where(k => k.ProgrammeId == user.ProgrammeId && (k.ToClean || k.ReservedForTankId != null || k.Condition == KitCondition.Faulty)).ToListAsync(cancel);
        return pieces.Select(k => new ComingLine(
            words.Today, words.Today,
            words.Say[k.ReservedForTankId is not null ? "Promised to a tank: bring it" : k.Condition == KitCondition.Faulty ? "Faulty: to be repaired" : "To be cleaned"],
            $"{words.Say[KitWords.Capital(KitWords.Of(k.Kind))]} {k.Serial}", $"/kit/{k.Serial}"));
    }
}
