using Tankside.Hatchery.Eggs.Runs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Eggs.Runs;

/// <summary>One stop a quarter of an hour from the depot, planned well, and then each rule broken in turn.</summary>
public class DeliveryPlanCheckTests
{
    private static readonly GeoPoint Depot = new(43.70, -113.70), School = new(43.78, -113.70);

    private static readonly DriverShift Driver = new(Guid.NewGuid(), Depot, 150, new DayWindow(420, 900));

    private static readonly DeliveryStop Stop = new(Guid.NewGuid(), School, 150, new DayWindow(480, 600), 15);

    private static readonly DeliveryDay Day = new([Driver], [Stop], Roads.Usual, 60);

    private static readonly DriverRoute Route = new(Driver.Id, 470, [new PlannedVisit(Stop.Id, 485, 500)], 515);

    [Fact]
    public void A_plan_that_keeps_everything_breaks_nothing()
    {
        Assert.Equal(15, Day.Drive(Depot, School));
        Assert.Empty(DeliveryPlanCheck.Broken(new DeliveryPlan([Route], []), Day));
        Assert.Equal(30, new DeliveryPlan([Route], []).DrivenIn(Day));
    }

    public static TheoryData<PlanFault, DriverRoute, DeliveryDay> Breaches() => new()
    {
        { PlanFault.OutsideWindow, Route, Of(Stop with { Window = new DayWindow(490, 600) }) },
        { PlanFault.OutsideWindow, Route, Of(Stop with { Window = new DayWindow(480, 499) }) },
        { PlanFault.VisitCutShort, Route with { Visits = [new PlannedVisit(Stop.Id, 485, 499)] }, Day },
        { PlanFault.DriveTooShort, Route with { Leaves = 471 }, Day },
        { PlanFault.DriveTooShort, Route with { Back = 514 }, Day },
        { PlanFault.CarTooFull, Route, Of(Stop with { Eggs = 151 }) },
        { PlanFault.TooLongOutOfWater, Route, Day with { LongestOut = 29 } },
        { PlanFault.OutsideShift, Route, Day with { Drivers = [Driver with { Shift = new DayWindow(471, 900) }] } },
        { PlanFault.OutsideShift, Route, Day with { Drivers = [Driver with { Shift = new DayWindow(420, 514) }] } },
        { PlanFault.PinBroken, Route, Of(Stop with { PinnedPlace = 2 }) },
        { PlanFault.PinBroken, Route, Of(Stop with { PinnedTo = Guid.NewGuid() }) },
        { PlanFault.PinBroken, Route, Of(Stop with { InCarOf = Guid.NewGuid() }) },
        { PlanFault.StopForgotten, Route with { Visits = [] }, Day },
        { PlanFault.StopTwice, Route with { Visits = [.. Route.Visits, new PlannedVisit(Stop.Id, 500, 515)], Back = 530 }, Day },
        { PlanFault.StopUnknown, Route with { Visits = [new PlannedVisit(Guid.NewGuid(), 485, 500)] }, Day },
        { PlanFault.DriverUnknown, Route with { DriverId = Guid.NewGuid() }, Day },
    };

    [Theory, MemberData(nameof(Breaches))]
    public void Each_broken_rule_is_found(PlanFault fault, DriverRoute route, DeliveryDay day) =>
        Assert.Contains(DeliveryPlanCheck.Broken(new DeliveryPlan([route], []), day), b => b.Fault == fault);

    [Fact]
    public void Time_out_of_water_runs_since_the_driver_left_who_is_planned_anew_on_the_way()
    {
        var day = Day with { Drivers = [Driver with { UnderWay = new UnderWay(Depot, 470, 430) }], Stops = [Stop with { InCarOf = Driver.Id }] };

        Assert.Equal([new BrokenRule(PlanFault.TooLongOutOfWater, Stop.Id)], DeliveryPlanCheck.Broken(new DeliveryPlan([Route], []), day));
    }

    [Theory]
    [InlineData(DropReason.SchoolShut, 0, 0, 15, 150)]
    [InlineData(DropReason.VisitLongerThanWindow, 480, 490, 15, 150)]
    [InlineData(DropReason.TooManyForACar, 480, 600, 15, 151)]
    [InlineData(DropReason.OutOfReach, 480, 600, 50, 150)]
    [InlineData(null, 480, 600, 15, 150)]
    public void What_cannot_go_at_all_is_told_why(DropReason? why, int from, int until, int visit, int eggs) =>
        Assert.Equal(why, DropReasons.Of(Stop with { Window = new DayWindow(from, until), Visit = visit, Eggs = eggs }, Day));

    private static DeliveryDay Of(DeliveryStop stop) => Day with { Stops = [stop] };
}
