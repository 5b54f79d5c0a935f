using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Readings;

public class TankDaysTests
{
    private static readonly Guid Tank = new("0193a000-0000-7000-8000-000000000002");

    private static readonly ProgrammeClock Clock = ProgrammeClock.Of("America/Los_Angeles");

    private static ReadingFact At(int month, int day, int hour, int minute, Observation seen) =>
        new(new DateTime(2027, month, day, hour, minute, 0, DateTimeKind.Utc), seen, ByClass: true);

    private static List<TankDay> Fold(params ReadingFact[] readings) => TankDays.Fold(Tank, readings, Clock);

    [Fact]
    public void A_day_is_the_programmes_own_and_moves_with_its_clocks()
    {
        var water = new Observation { WaterC = 10 };
        var days = Fold(
            At(3, 14, 7, 59, water), // 23:59 on the 13th, before the clocks go forward
            At(3, 14, 8, 0, water), // midnight of the 14th, eight hours behind
            At(3, 15, 6, 59, water), // 23:59 on the 14th, seven hours behind
            At(3, 15, 7, 0, water)); // midnight of the 15th

        Assert.Equal([(13, 1), (14, 2), (15, 1)], days.Select(d => (d.Day.Day, d.Readings)));
        Assert.All(days, d => Assert.Equal(Tank, d.TankId));
    }

    [Fact]
    public void The_long_day_of_autumn_is_one_day()
    {
        var water = new Observation { WaterC = 10 };
        var days = Fold(At(11, 7, 7, 0, water), At(11, 8, 7, 59, water), At(11, 8, 8, 0, water));

        Assert.Equal([(7, 2), (8, 1)], days.Select(d => (d.Day.Day, d.Readings)));
    }

    [Fact]
    public void A_day_sums_its_dead_and_keeps_its_warmest_coldest_and_furthest()
    {
        var day = Assert.Single(Fold(
            At(1, 20, 17, 0, new Observation { WaterC = 10.2, DeadEggs = 2, Hatched = Share.Half }),
            At(1, 20, 20, 0, new Observation { WaterC = 11.4, DeadEggs = 1, DeadAlevins = 3, Hatched = Share.Some }),
            At(1, 20, 22, 0, new Observation { Moving = true, Swimming = Share.None })));

        Assert.Equal((3, 2), (day.Readings, day.WaterReadings));
        Assert.Equal((10.8, 10.2, 11.4), (day.MeanC, day.MinC, day.MaxC));
        Assert.Equal((3, 3, null, 6), (day.DeadEggs, day.DeadAlevins, day.DeadFry, day.Dead));
        Assert.Equal((Share.Half, Share.None), (day.Hatched, day.Swimming));
    }

    [Fact]
    public void A_day_on_which_nobody_counted_has_no_dead_and_a_count_of_none_is_zero()
    {
        var uncounted = Assert.Single(Fold(At(1, 20, 17, 0, new Observation { Moving = true })));
        var counted = Assert.Single(Fold(At(1, 20, 17, 0, new Observation { DeadFry = 0 })));

        Assert.Null(uncounted.Dead);
        Assert.Null(uncounted.MeanC);
        Assert.Equal(0, counted.Dead);
    }

    [Fact]
    public void Readings_in_any_order_make_the_same_days()
    {
        ReadingFact[] readings =
        [
            At(1, 20, 17, 0, new Observation { WaterC = 10.1, DeadEggs = 2, Hatched = Share.None }),
            At(1, 20, 18, 0, new Observation { WaterC = 10.7, DeadEggs = 0, Hatched = Share.Some }),
            At(1, 20, 22, 0, new Observation { WaterC = 11.3, DeadAlevins = 1, Hatched = Share.Half }),
            At(1, 21, 17, 0, new Observation { WaterC = 9.9, Hatched = Share.All }),
            At(1, 22, 17, 0, new Observation { RoomC = 21 }),
        ];
        var expected = Fold(readings).Select(Shown).ToList();

        foreach (var order in Orders(readings))
        {
            Assert.Equal(expected, Fold([.. order]).Select(Shown));
        }
    }

    private static object Shown(TankDay d) =>
        (d.Day, d.Readings, d.WaterReadings, d.MeanC, d.MinC, d.MaxC, d.DeadEggs, d.DeadAlevins, d.DeadFry, d.Hatched, d.Swimming).ToString();

    private static IEnumerable<IEnumerable<T>> Orders<T>(IReadOnlyCollection<T> all) => all.Count <= 1
        ? [all]
        : all.SelectMany((one, i) => Orders([.. all.Where((_, j) => j != i)]).Select(rest => rest.Prepend(one)));
}
