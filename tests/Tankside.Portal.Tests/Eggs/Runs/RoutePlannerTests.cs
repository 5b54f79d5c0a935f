using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Eggs.Runs.Planning;
using Tankside.Science.Units;

namespace Tankside.Portal.Tests.Eggs.Runs;

public class RoutePlannerTests
{
    private static readonly GeoPoint Depot = new(43.70, -113.70), Near = new(43.72, -113.70), Far = new(43.95, -113.70);

    private static readonly DayWindow SchoolDay = new(8 * 60, 15 * 60);

    /// <summary>What a day whose schools all have a place can give as a reason.</summary>
    private static readonly DropReason[] Possible =
    [
        DropReason.SchoolShut, DropReason.VisitLongerThanWindow, DropReason.TooManyForACar, DropReason.OutOfReach, DropReason.PinnedDriverIsOut,
        DropReason.CarsAreFull, DropReason.NoTimeLeft,
    ];

    [Fact]
    public void No_window_is_missed_no_car_too_full_and_no_egg_too_long_out_of_water_in_a_thousand_days()
    {
        var (visited, dropped) = (0, new HashSet<DropReason>());
        for (var seed = 0; seed < 1000; seed++)
        {
            var day = GeneratedDay.Of(seed);
            var plan = RoutePlanner.Plan(day, SolverEffort.Quick);

            var broken = DeliveryPlanCheck.Broken(plan, day);
            Assert.True(broken.Count == 0, $"day {seed}: {string.Join(", ", broken.Select(b => b.Fault))}");
            visited += plan.Routes.Sum(r => r.Visits.Count);
            dropped.UnionWith(plan.Dropped.Select(d => d.Why));
        }

        // The days have something in them: visits by the thousand, and every reason that a day of places can give.
        Assert.InRange(visited, 2000, 5000);
        Assert.Equal(Possible.Except(dropped), []);
    }

    [Fact]
    public void Sixty_stops_of_an_ordinary_day_are_all_visited()
    {
        var day = GeneratedDay.Large(60, 14);

        var plan = RoutePlanner.Plan(day, SolverEffort.Quick);

        Assert.Empty(DeliveryPlanCheck.Broken(plan, day));
        Assert.Empty(plan.Dropped);
    }

    [Fact]
    public void When_a_driver_drops_out_the_others_take_the_stops_and_the_pins_are_kept()
    {
        var day = GeneratedDay.Large(24, 6);
        var plan = RoutePlanner.Plan(day, SolverEffort.Quick);
        var (kept, gone) = (plan.Routes[0], plan.Routes[1]);
        Assert.NotEmpty(gone.Visits);
        var pinned = day.Stops.Select(s => kept.Visits.Any(v => v.StopId == s.Id) ? s with { PinnedTo = kept.DriverId } : s).ToList();
        var without = day with { Drivers = [.. day.Drivers.Where(d => d.Id != gone.DriverId)], Stops = pinned };

        var again = RoutePlanner.Plan(without, SolverEffort.Quick);

        Assert.Empty(DeliveryPlanCheck.Broken(again, without));
        Assert.Empty(again.Dropped);
        Assert.Empty(kept.Visits.Select(v => v.StopId).Except(again.Routes.Single(r => r.DriverId == kept.DriverId).Visits.Select(v => v.StopId)));
    }

    [Fact]
    public void A_pinned_place_in_the_round_is_kept_against_the_shorter_way()
    {
        var driver = Driver();
        var (near, far) = (Stop(Near), Stop(Far) with { PinnedPlace = 1 });
        var day = new DeliveryDay([driver], [near, far], Roads.Usual, 300);

        Assert.Equal([far.Id, near.Id], Assert.Single(RoutePlanner.Plan(day, SolverEffort.Quick).Routes).Visits.Select(v => v.StopId));
    }

    [Fact]
    public void Each_driver_starts_from_the_own_depot()
    {
        var (here, there) = (Driver(), Driver() with { Depot = Far });
        var (atDepot, atFar) = (Stop(Near), Stop(new GeoPoint(43.94, -113.71)));
        var day = new DeliveryDay([here, there], [atDepot, atFar], Roads.Usual, 300);

        var plan = RoutePlanner.Plan(day, SolverEffort.Quick);

        Assert.Equal(atDepot.Id, Assert.Single(plan.Routes[0].Visits).StopId);
        Assert.Equal(atFar.Id, Assert.Single(plan.Routes[1].Visits).StopId);
    }

    [Fact]
    public void Who_has_left_delivers_what_is_in_the_car_and_is_given_nothing_else()
    {
        var away = Driver() with { UnderWay = new UnderWay(Near, 9 * 60, 8 * 60) };
        var (aboard, other) = (Stop(Far) with { InCarOf = away.Id }, Stop(Near));
        var day = new DeliveryDay([away], [aboard, other], Roads.Usual, 300);

        var plan = RoutePlanner.Plan(day, SolverEffort.Quick);

        Assert.Equal(aboard.Id, Assert.Single(Assert.Single(plan.Routes).Visits).StopId);
        Assert.Equal(new DroppedStop(other.Id, DropReason.OutOfReach), Assert.Single(plan.Dropped));
    }

    [Fact]
    public void A_driver_is_there_when_the_window_opens_and_leaves_no_earlier_than_that_needs()
    {
        var day = new DeliveryDay([Driver()], [Stop(Near) with { Window = new DayWindow(11 * 60, 12 * 60) }], Roads.Usual, 300);

        var route = Assert.Single(RoutePlanner.Plan(day, SolverEffort.Quick).Routes);

        Assert.Equal(11 * 60, route.Visits[0].Begins);
        Assert.Equal((11 * 60) - day.Drive(Depot, Near), route.Leaves);
    }

    [Fact]
    public async Task A_search_that_is_called_off_gives_no_plan()
    {
        using var off = new CancellationTokenSource();
        var found = 0;
        var search = Task.Run(() => RoutePlanner.Plan(
            GeneratedDay.Large(60, 14),
            new SolverEffort(TimeSpan.FromMinutes(5)),
            _ =>
            {
                found++;
                off.Cancel();
            },
            off.Token));

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => search);
        Assert.True(found > 0);
    }

    private static DriverShift Driver() => new(Guid.NewGuid(), Depot, 1000, new DayWindow(6 * 60, 17 * 60));

    private static DeliveryStop Stop(GeoPoint at) => new(Guid.NewGuid(), at, 150, SchoolDay, 15);
}
