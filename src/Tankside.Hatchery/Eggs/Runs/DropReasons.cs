namespace Tankside.Hatchery.Eggs.Runs;

/// <summary>Why a stop cannot be in a plan whatever the others are; found before any planning, so that a solver is never asked to explain.</summary>
public static class DropReasons
{
    /// <summary>Null when at least one driver could do this stop alone.</summary>
    public static DropReason? Of(DeliveryStop stop, DeliveryDay day)
    {
        if (stop.Window.Until <= stop.Window.From)
        {
            return DropReason.SchoolShut;
        }

        if (stop.LatestStart < stop.Window.From)
        {
            return DropReason.VisitLongerThanWindow;
        }

        if (stop.InCarOf is { } car && day.Drivers.All(d => d.Id != car))
        {
            return DropReason.InAnotherCar;
        }

        if (stop.PinnedTo is { } pinned && day.Drivers.All(d => d.Id != pinned))
        {
            return DropReason.PinnedDriverIsOut;
        }

        var may = day.Drivers.Where(d => d.MayTake(stop)).ToList();
        if (may.Count > 0 && may.All(d => d.Eggs < stop.Eggs))
        {
            return DropReason.TooManyForACar;
        }

        return may.Any(d => d.Eggs >= stop.Eggs && IsInReach(stop, d, day)) ? null : DropReason.OutOfReach;
    }

    /// <summary>Why a stop that could go alone was left out beside the others.</summary>
    public static DropReason BesideOthers(DeliveryDay day, IEnumerable<DeliveryStop> taken, DeliveryStop left)
    {
        var aboard = taken.Sum(s => s.Eggs);
        return aboard + left.Eggs > day.Drivers.Sum(d => d.Eggs) ? DropReason.CarsAreFull : DropReason.NoTimeLeft;
    }

    private static bool IsInReach(DeliveryStop stop, DriverShift driver, DeliveryDay day)
    {
        var way = day.Drive(driver.StartsAt, stop.At);
        var begins = Math.Max(driver.FreeFrom + way, stop.Window.From);
        // One who has not left yet leaves as late as that arrival allows.
        var left = driver.UnderWay?.LeftAt ?? begins - way;
        var ends = begins + stop.Visit;
        return begins <= stop.LatestStart && ends - left <= day.LongestOut && ends + day.Drive(stop.At, driver.Depot) <= driver.Shift.Until;
    }
}
