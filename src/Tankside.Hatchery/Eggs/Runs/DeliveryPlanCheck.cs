namespace Tankside.Hatchery.Eggs.Runs;

/// <summary>What a plan must never do.</summary>
public enum PlanFault
{
    /// <summary>Neither in a route nor dropped with a reason.</summary>
    StopForgotten,
    StopTwice,
    StopUnknown,
    DriverUnknown,
    DriverTwice,
    OutsideWindow,
    VisitCutShort,
    CarTooFull,
    TooLongOutOfWater,
    OutsideShift,

    /// <summary>The visit begins before the driver can be there.</summary>
    DriveTooShort,
    PinBroken,
}

/// <param name="Id">The stop or driver that it is about.</param>
public sealed record BrokenRule(PlanFault Fault, Guid Id);

/// <summary>Reckons a plan through from the day alone, without asking whoever made it. A plan with anything broken is not kept.</summary>
public static class DeliveryPlanCheck
{
    public static IReadOnlyList<BrokenRule> Broken(DeliveryPlan plan, DeliveryDay day) =>
        [.. OfStops(plan, day), .. OfDrivers(plan, day), .. plan.Routes.SelectMany(r => OfRoute(r, day))];

    private static IEnumerable<BrokenRule> OfStops(DeliveryPlan plan, DeliveryDay day)
    {
        var known = day.Stops.Select(s => s.Id).ToHashSet();
        var told = plan.Routes.SelectMany(r => r.Visits.Select(v => v.StopId)).Concat(plan.Dropped.Select(d => d.StopId)).ToList();
        return known.Except(told).Select(id => new BrokenRule(PlanFault.StopForgotten, id))
            .Concat(told.GroupBy(id => id).Where(g => g.Count() > 1).Select(g => new BrokenRule(PlanFault.StopTwice, g.Key)))
            .Concat(told.Except(known).Select(id => new BrokenRule(PlanFault.StopUnknown, id)));
    }

    private static IEnumerable<BrokenRule> OfDrivers(DeliveryPlan plan, DeliveryDay day)
    {
        var drivers = plan.Routes.Select(r => r.DriverId).ToList();
        return drivers.Except(day.Drivers.Select(d => d.Id)).Select(id => new BrokenRule(PlanFault.DriverUnknown, id))
            .Concat(drivers.GroupBy(id => id).Where(g => g.Count() > 1).Select(g => new BrokenRule(PlanFault.DriverTwice, g.Key)));
    }

    private static IEnumerable<BrokenRule> OfRoute(DriverRoute route, DeliveryDay day)
    {
        var visits = route.Visits.Select(v => (Visit: v, Stop: day.Stops.FirstOrDefault(s => s.Id == v.StopId))).Where(v => v.Stop is not null).ToList();
        if (day.Drivers.FirstOrDefault(d => d.Id == route.DriverId) is not { } driver || visits.Count == 0)
        {
            yield break;
        }

        if (visits.Sum(v => v.Stop!.Eggs) > driver.Eggs)
        {
            yield return new BrokenRule(PlanFault.CarTooFull, driver.Id);
        }

        if (route.Leaves < driver.FreeFrom || route.Back > driver.Shift.Until)
        {
            yield return new BrokenRule(PlanFault.OutsideShift, driver.Id);
        }

        var (place, free) = (driver.StartsAt, route.Leaves);
        foreach (var (index, (visit, stop)) in visits.Index())
        {
            foreach (var fault in OfVisit(visit, stop!, driver, day, free + day.Drive(place, stop!.At), driver.UnderWay?.LeftAt ?? route.Leaves, index + 1))
            {
                yield return new BrokenRule(fault, stop.Id);
            }

            (place, free) = (stop.At, visit.Ends);
        }

        if (route.Back < free + day.Drive(place, driver.Depot))
        {
            yield return new BrokenRule(PlanFault.DriveTooShort, driver.Id);
        }
    }

    private static IEnumerable<PlanFault> OfVisit(PlannedVisit visit, DeliveryStop stop, DriverShift driver, DeliveryDay day, int there, int left, int place)
    {
        if (visit.Begins < stop.Window.From || visit.Ends > stop.Window.Until)
        {
            yield return PlanFault.OutsideWindow;
        }

        if (visit.Ends - visit.Begins < stop.Visit)
        {
            yield return PlanFault.VisitCutShort;
        }

        if (visit.Begins < there)
        {
            yield return PlanFault.DriveTooShort;
        }

        if (visit.Ends - left > day.LongestOut)
        {
            yield return PlanFault.TooLongOutOfWater;
        }

        if (!driver.MayTake(stop) || (stop.PinnedPlace is { } pinned && pinned != place))
        {
            yield return PlanFault.PinBroken;
        }
    }
}
