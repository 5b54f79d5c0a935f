using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Eggs.Runs;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.HatchCalendar;
using Tankside.Portal.Releases.Bookings;
using Tankside.Portal.Releases.Due;
using Tankside.Storage;

namespace Tankside.Portal.Digests.HandOver;

/// <summary>What the calendars hold for the next six weeks, in one list.</summary>
public sealed class SixWeeks(IDbContextFactory<HatcheryDb> databases, CalendarTanks calendar, BookingBoard bookings, RunBoard runs, TimeProvider time)
{
    private const int Days = 42;

    private sealed record Coming(DateOnly First, DateOnly Last, string What, string Where);

    public async Task<HandOverPart> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        var now = await calendar.LoadAsync(user, cancel);
        var (from, to) = (now.Time.Today, now.Time.Today.AddDays(Days));
        List<Coming> coming = [.. Stages(now), .. await ClosuresAsync(now, cancel), .. await ReleasesAsync(user, cancel), .. await ReportsAsync(user, cancel), .. await RunsAsync(user, cancel)];
        return new HandOverPart(
            "weeks", "The next six weeks",
            "Hatch and swim-up are forecasts: half of the fish between these days, 8 times in 10; they move with the readings. A report that is late stands first.",
            ["When", "What", "Where"], [0.26, 0.32, 0.42],
            [.. coming.Where(c => c.Last >= from && c.First <= to).OrderBy(c => c.First).ThenBy(c => c.Last).ThenBy(c => c.Where, StringComparer.Ordinal)
                .Select(c => (IReadOnlyList<string>)[now.Time.Stretch(c.First, c.Last), c.What, c.Where])],
            "Nothing is known for the next six weeks.");
    }

    private static IEnumerable<Coming> Stages(CalendarNow now) =>
        from tank in now.Tanks
        from stage in new[] { (Name: "Hatch", On: tank.Hatch), (Name: "Swim-up", On: tank.SwimUp) }
        where stage.On is { SeenOn: null }
        let forecast = stage.On.Forecast
        select new Coming(forecast.Low80, forecast.High80, stage.Name, $"{tank.Code}, {tank.Glance.Place.School.Name}, {tank.Glance.Place.Room.Name}");

    private async Task<IEnumerable<Coming>> ClosuresAsync(CalendarNow now, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var ids = now.Closures.Select(c => c.SchoolId).OfType<Guid>().Distinct().ToList();
        var schools = await db.Schools.Where(s => ids.Contains(s.Id)).ToDictionaryAsync(s => s.Id, s => s.Name, cancel);
        return now.Closures.Select(c => new Coming(c.FirstDay, c.LastDay, $"Closed: {c.Reason}", c.SchoolId is { } school ? schools[school] : "all schools"));
    }

    private async Task<IEnumerable<Coming>> ReleasesAsync(CurrentUser user, CancellationToken cancel)
    {
        var board = await bookings.LoadAsync(user, cancel);
        return
            from seen in board.Bookings
            where seen.Booking is { State: BookingState.Settled, Slot: not null }
            let slot = seen.Booking.Slot!.Value
            select new Coming(
                slot.On, slot.On, $"Release day, {BookingWords.Of(slot.Part)}; {BookingWords.Agency(seen.Booking)}",
                $"{seen.Codes}, {seen.School.Name}, at {board.Sites[slot.SiteId].Name}");
    }

    private async Task<IEnumerable<Coming>> ReportsAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var due = await ReportsDue.LoadAsync(db, user.ProgrammeId, time, cancel);
        var today = due.Season.Today;
        return due.Open.Select(r => new Coming(
            r.DueOn, r.DueOn < today ? today : r.DueOn,
            r.DueOn < today ? "Report is late" : r.IsNil ? "Nil report is due" : "Report is due",
            $"permit {r.Permit.Number}{(r.IsNil ? "" : $", {r.Tank}, {r.School}")}"));
    }

    private async Task<IEnumerable<Coming>> RunsAsync(CurrentUser user, CancellationToken cancel) =>
        (await runs.LinesAsync(user, cancel)).Select(r => new Coming(r.Run.On, r.Run.On, $"Delivery run {r.Run.Name}", CountWords.Count(r.Stops, "stop", "stops")));
}
