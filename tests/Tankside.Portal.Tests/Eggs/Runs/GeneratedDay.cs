using Tankside.Hatchery.Eggs.Runs;
using Tankside.Science.Units;

namespace Tankside.Portal.Tests.Eggs.Runs;

/// <summary>Delivery days of any shape, the same for the same number: more stops than drivers can do among them, pins, drivers who have left.</summary>
internal static class GeneratedDay
{
    public static DeliveryDay Of(int seed, int mostStops = 9, int mostDrivers = 4)
    {
        var dice = new Random(seed);
        var depots = Enumerable.Range(0, 1 + dice.Next(2)).Select(_ => Place(dice)).ToList();
        var drivers = Enumerable.Range(0, 1 + dice.Next(mostDrivers)).Select(_ => Driver(dice, depots[dice.Next(depots.Count)])).ToList();
        var schools = Enumerable.Range(0, 1 + dice.Next(mostStops)).Select(_ => Place(dice)).ToList();
        var stops = Enumerable.Range(0, 1 + dice.Next(mostStops)).Select(_ => Stop(dice, schools[dice.Next(schools.Count)], drivers)).ToList();
        return new DeliveryDay(drivers, stops, new Roads(1.2 + (dice.NextDouble() * 0.3), 35 + dice.Next(40)), 60 + dice.Next(240));
    }

    /// <summary>An ordinary large day: two depots, all day open, cars half empty.</summary>
    public static DeliveryDay Large(int stops, int drivers)
    {
        var dice = new Random(60);
        var depots = new[] { new GeoPoint(43.8, -113.6), new GeoPoint(43.9, -113.4) };
        return new DeliveryDay(
            [.. Enumerable.Range(0, drivers).Select(i => new DriverShift(Guid.NewGuid(), depots[i % 2], 1500, new DayWindow(6 * 60, 16 * 60)))],
            [.. Enumerable.Range(0, stops).Select(i => new DeliveryStop(
                Guid.NewGuid(), Place(dice), 150, new DayWindow((8 * 60) + (15 * dice.Next(4)), (14 * 60) + (15 * dice.Next(6))), i % 3 == 0 ? 40 : 15))],
            Roads.Usual,
            240);
    }

    /// <summary>Somewhere in a valley of some 45 km across.</summary>
    private static GeoPoint Place(Random dice) => new(Math.Round(43.6 + (dice.NextDouble() * 0.4), 4), Math.Round(-113.9 + (dice.NextDouble() * 0.55), 4));

    private static DriverShift Driver(Random dice, GeoPoint depot)
    {
        var from = (6 * 60) + (15 * dice.Next(12));
        var shift = new DayWindow(from, from + 120 + dice.Next(420));
        var left = from + dice.Next(40);
        return new DriverShift(
            Guid.NewGuid(), depot, 100 + (50 * dice.Next(20)), shift, dice.Next(6) == 0 ? new UnderWay(Place(dice), left + dice.Next(60), left) : null);
    }

    private static DeliveryStop Stop(Random dice, GeoPoint school, List<DriverShift> drivers)
    {
        var opens = (7 * 60) + (15 * dice.Next(10));
        var driver = drivers[dice.Next(drivers.Count)];
        return new DeliveryStop(
            Guid.NewGuid(), school, 20 + (10 * dice.Next(30)), new DayWindow(opens, opens - 10 + dice.Next(450)), 10 + dice.Next(35),
            dice.Next(5) == 0 ? dice.Next(10) == 0 ? Guid.NewGuid() : driver.Id : null,
            dice.Next(8) == 0 ? 1 + dice.Next(3) : null,
            driver.UnderWay is not null && dice.Next(2) == 0 ? driver.Id : null);
    }
}
