using Tankside.Hatchery.Eggs.Runs;
using Tankside.Science.Units;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>What of a run is still to be planned, as the planner takes it; and what cannot even be asked of it.</summary>
public sealed record DayOfRun(DeliveryDay Day, IReadOnlyList<DroppedStop> Hopeless)
{
    /// <summary>A holding tank is looked after from early till late (ours).</summary>
    private static readonly DayWindow HoldingHours = DayWindow.Of(new TimeOnly(5, 0), new TimeOnly(21, 0));

    public static DayOfRun Of(RunView view)
    {
        var stops = new List<DeliveryStop>();
        var hopeless = new List<DroppedStop>();
        foreach (var stop in view.Standing.Where(s => !s.HasEnded))
        {
            if (PlaceOf(stop, view) is { } at)
            {
                stops.Add(StopOf(stop, at, view));
            }
            else
            {
                hopeless.Add(new DroppedStop(stop.Stop.Id, stop.Stop.ToHolding ? DropReason.NoHoldingTank : DropReason.NoPlace));
            }
        }

        var run = view.Run;
        return new DayOfRun(
            new DeliveryDay([.. view.Drivers.Where(d => d.OutAt is null).Select(d => ShiftOf(d, view))], stops, new Roads(run.Detour, run.KmPerHour), run.LongestOut), hopeless);
    }

    private static GeoPoint? PlaceOf(StopView stop, RunView view) => !stop.Stop.ToHolding ? stop.At
        : view.Holding is { } holding ? new GeoPoint(holding.Latitude, holding.Longitude) : null;

    private static DriverShift ShiftOf(RunDriver driver, RunView view)
    {
        var depot = view.Places.Single(p => p.Id == driver.DepotId);
        return new DriverShift(
            driver.Id, new GeoPoint(depot.Latitude, depot.Longitude), driver.Eggs, DayWindow.Of(driver.From, driver.Until),
            view.OnRoad(driver) is { } road ? new UnderWay(road.At, road.FreeFrom, road.LeftAt) : null);
    }

    private static DeliveryStop StopOf(StopView stop, GeoPoint at, RunView view)
    {
        var row = stop.Stop;
        var carrier = stop.Pack.Place == PackPlace.InACar ? view.Drivers.FirstOrDefault(d => d.Id == stop.Pack.Deciding!.DriverId) : null;
        var driven = row.PinnedDriverId is { } pinned ? view.Stops.Count(s => s.HasEnded && s.Stop.DriverId == pinned) : 0;
        return new DeliveryStop(
            row.Id,
            at,
            row.Eggs,
            row.ToHolding ? HoldingHours : WindowOf(stop, view),
            row.ToHolding || row.Visit == VisitKind.DropOnly ? view.Run.DropMinutes : view.Run.TalkMinutes,
            row.PinnedDriverId,
            row.PinnedPlace - driven is > 0 and var place ? place : null,
            // What is loaded and has not left can still change cars.
            carrier is not null && view.OnRoad(carrier) is not null ? carrier.Id : null);
    }

    /// <summary>The school's hours, less what the coordinator took off; nothing on a day on which it is shut.</summary>
    private static DayWindow WindowOf(StopView stop, RunView view)
    {
        var school = stop.School;
        if (view.IsShut(school))
        {
            return default;
        }

        var (opens, closes) = school.TakesDeliveries;
        var from = stop.Stop.NotBefore is { } first && first > opens ? first : opens;
        var until = stop.Stop.NotAfter is { } last && last < closes ? last : closes;
        return DayWindow.Of(from, until);
    }
}
