using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Tests.Flags;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Tests.Readings;

/// <summary>What nobody read must be filled openly: it may neither hide a trouble nor look as sure as what was read.</summary>
public class UnreadDaysTests
{
    private static readonly DateOnly Delivered = new(2027, 1, 15);

    private static readonly LotProfile Lot = new("L1", Species.RainbowTrout, Delivered.AddDays(-15), Delivered.AddDays(-15), 9, Delivered, "R1");

    [Fact]
    public void A_first_reading_after_a_month_of_none_does_not_make_fry_of_alevins()
    {
        var lot = Lot with { FertilisedFrom = new(2026, 12, 9), FertilisedTo = new(2026, 12, 9), DeliveredOn = new(2026, 12, 24) };
        List<TankDay> said = [new() { Day = new(2027, 1, 13), Hatched = Share.All }, new() { Day = new(2027, 1, 19), MeanC = 15.4 }];

        Assert.Equal(LifeStage.Alevin, TankDevelopment.On(new(2027, 1, 20), lot, said, 10.5).Stage);
    }

    [Fact]
    public void The_more_days_in_a_row_nobody_read_the_wider_the_interval()
    {
        var all = Spread([.. Enumerable.Range(0, 15)]);
        var weekends = Spread([0, 1, 2, 3, 4, 7, 8, 9, 10, 11, 14]);
        var ends = Spread([0, 14]);

        Assert.True(weekends > all);
        Assert.True(ends > weekends + 0.3);
    }

    [Fact]
    public void A_days_mean_is_the_same_in_any_order_of_its_readings()
    {
        double[] water = [11.98, 8.84, 11.96, 9.53, 12.11, 12.43, 10.78, 11.58];

        Assert.Equal(MeanOf(water), MeanOf([.. water.Order()]));
    }

    [Fact]
    public void A_rise_of_exactly_the_step_is_warming() =>
        Assert.NotNull(WarmingRules.WarmingFast(TankStory.Eggs().Water(-1, 9, 10.5).Water(0, 9, 11.6).Situation()));

    [Fact]
    public void Ice_that_was_seen_is_over_when_the_water_is_back() =>
        Assert.Null(IceRules.IcedCoil(TankStory.Eggs().Seen(-3, 9, new Observation { IceOnCoil = true, WaterC = 3.3 })
            .Water(-2, 9, 10.5).Water(-1, 9, 10.5).Water(0, 9, 10.5).Situation()));

    private static double Spread(int[] days) => TankDevelopment
        .On(Delivered.AddDays(15), Lot, [.. days.Select(i => new TankDay { Day = Delivered.AddDays(i), MeanC = 10 })], 10).Hatch!.SdDays;

    private static double? MeanOf(double[] water)
    {
        var at = new DateTime(2027, 1, 20, 16, 0, 0, DateTimeKind.Utc);
        var readings = water.Select((c, i) => new ReadingFact(at.AddMinutes(i), new Observation { WaterC = c }, true));
        return Assert.Single(TankDays.Fold(Guid.Empty, readings, ProgrammeClock.Of("America/Los_Angeles"))).MeanC;
    }
}
