using Tankside.Science.Units;

namespace Tankside.Hatchery.Eggs.Runs;

/// <summary>From when until when, in minutes of the local day.</summary>
public readonly record struct DayWindow(int From, int Until)
{
    public static DayWindow Of(TimeOnly from, TimeOnly until) => new(MinuteOf(from), MinuteOf(until));

    public static int MinuteOf(TimeOnly time) => (time.Hour * 60) + time.Minute;

    public static TimeOnly TimeOf(int minute) => new(minute / 60 % 24, minute % 60);
}

/// <summary>Everything that a plan of a delivery day has to reckon with.</summary>
/// <param name="LongestOut">Minutes that eggs may be on the way, from leaving the depot to the end of the visit in which they are put into the tank.</param>
public sealed record DeliveryDay(IReadOnlyList<DriverShift> Drivers, IReadOnlyList<DeliveryStop> Stops, Roads Roads, int LongestOut)
{
    public int Drive(GeoPoint from, GeoPoint to) => Roads.Minutes(from, to);
}

/// <summary>A driver who can take eggs out that day.</summary>
/// <param name="Depot">Where the shift begins and ends.</param>
/// <param name="Eggs">How many fit, as packed.</param>
/// <param name="UnderWay">Set when the driver has left already: then only the eggs in that car can be delivered by it.</param>
public sealed record DriverShift(Guid Id, GeoPoint Depot, int Eggs, DayWindow Shift, UnderWay? UnderWay = null)
{
    public GeoPoint StartsAt => UnderWay?.At ?? Depot;

    /// <summary>The first minute at which the next drive can begin.</summary>
    public int FreeFrom => UnderWay is { } way ? Math.Max(way.FreeFrom, Shift.From) : Shift.From;

    public bool MayTake(DeliveryStop stop) => (stop.PinnedTo is null || stop.PinnedTo == Id)
        && (UnderWay is null ? stop.InCarOf is null : stop.InCarOf == Id);
}

/// <summary>A driver on the road while the day is planned again.</summary>
/// <param name="At">Where the last visit was; the depot before the first.</param>
/// <param name="FreeFrom">Minute at which the next drive can begin.</param>
/// <param name="LeftAt">Minute at which the depot was left: the time out of water runs since then.</param>
public sealed record UnderWay(GeoPoint At, int FreeFrom, int LeftAt);

/// <summary>A pack of eggs and where it goes.</summary>
/// <param name="Window">The whole visit lies in it: the school's hours, less what the coordinator took off.</param>
/// <param name="Visit">Minutes at the stop, sign-in and tempering included.</param>
/// <param name="PinnedTo">The one driver who is to come.</param>
/// <param name="PinnedPlace">First, second, … stop of whoever comes.</param>
/// <param name="InCarOf">The driver whose car the pack is in already.</param>
public sealed record DeliveryStop(
    Guid Id, GeoPoint At, int Eggs, DayWindow Window, int Visit, Guid? PinnedTo = null, int? PinnedPlace = null, Guid? InCarOf = null)
{
    /// <summary>The last minute at which the visit may begin.</summary>
    public int LatestStart => Window.Until - Visit;
}

/// <summary>Why a stop is in nobody's round. It is always said, never only missing.</summary>
public enum DropReason
{
    /// <summary>Nobody entered where the school is.</summary>
    NoPlace,
    SchoolShut,
    VisitLongerThanWindow,

    /// <summary>The tank is not ready and the run has no holding tank.</summary>
    NoHoldingTank,

    /// <summary>More eggs than any one car takes.</summary>
    TooManyForACar,

    /// <summary>No driver can be there in time and stay within shift and time out of water, even with this stop alone.</summary>
    OutOfReach,
    PinnedDriverIsOut,

    /// <summary>The eggs are in the car of a driver who cannot go on.</summary>
    InAnotherCar,

    /// <summary>It could go alone, but all cars together have no room for it.</summary>
    CarsAreFull,

    /// <summary>It could go alone, but not beside the others in the time there is.</summary>
    NoTimeLeft,
}

/// <summary>One visit of a plan; minutes of the local day.</summary>
public sealed record PlannedVisit(Guid StopId, int Begins, int Ends);

/// <summary>What one driver does.</summary>
/// <param name="Leaves">When the depot, or the last visit, is left.</param>
/// <param name="Back">When the driver is back at the depot.</param>
public sealed record DriverRoute(Guid DriverId, int Leaves, IReadOnlyList<PlannedVisit> Visits, int Back);

public sealed record DroppedStop(Guid StopId, DropReason Why);

/// <summary>A day's plan. Every stop is in it once: in a route, or dropped with the reason.</summary>
public sealed record DeliveryPlan(IReadOnlyList<DriverRoute> Routes, IReadOnlyList<DroppedStop> Dropped)
{
    /// <summary>Minutes behind the wheel, all drivers together.</summary>
    public int DrivenIn(DeliveryDay day)
    {
        var stops = day.Stops.ToDictionary(s => s.Id);
        return Routes.Sum(route =>
        {
            var driver = day.Drivers.Single(d => d.Id == route.DriverId);
            var places = route.Visits.Select(v => stops[v.StopId].At).Prepend(driver.StartsAt).Append(driver.Depot).ToList();
            return route.Visits.Count == 0 ? 0 : places.Zip(places.Skip(1), day.Drive).Sum();
        });
    }
}
