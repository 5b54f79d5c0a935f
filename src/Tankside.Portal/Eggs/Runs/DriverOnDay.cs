using Tankside.Hatchery.Eggs.Runs;
using Tankside.Science.Units;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>A driver who has left, by the ticks: since when, where from, and from when on the next drive can begin.</summary>
public sealed record DriverOnDay(int LeftAt, GeoPoint At, int FreeFrom)
{
    /// <summary>Null for one who is still at the depot: nothing loaded, or loaded and the time to leave not come.</summary>
    public static DriverOnDay? Of(RunDriver driver, RunView view)
    {
        var depot = view.Places.Single(p => p.Id == driver.DepotId);
        var own = view.Ticks.Where(t => t.DriverId == driver.Id && view.Clock.Day(t.At) == view.Run.On).OrderBy(t => t.At).ToList();
        var ended = view.Stops.Where(s => s.HasEnded && s.Pack.Deciding!.DriverId == driver.Id && own.Contains(s.Pack.Deciding)).OrderBy(s => s.Pack.Deciding!.At).LastOrDefault();
        var now = MinuteOf(view.Now);
        var loaded = own.FirstOrDefault(t => t.Deed == TickDeed.Loaded);
        var leaves = driver.Leaves is { } planned ? DayWindow.MinuteOf(planned) : (int?)null;
        if (ended is null && (loaded is null || leaves is null || now < leaves))
        {
            return null;
        }

        var left = leaves ?? MinuteOf((loaded ?? ended!.Pack.Deciding!).At);
        return new DriverOnDay(Math.Min(left, now), ended is null ? new GeoPoint(depot.Latitude, depot.Longitude) : PlaceOf(ended), now);

        int MinuteOf(DateTime utc) => DayWindow.MinuteOf(TimeOnly.FromDateTime(view.Clock.Local(utc)));

        GeoPoint PlaceOf(StopView stop) => stop.Pack.Place == PackPlace.AtTheHoldingTank && view.Holding is { } holding
            ? new GeoPoint(holding.Latitude, holding.Longitude)
            : stop.At ?? new GeoPoint(depot.Latitude, depot.Longitude);
    }
}
