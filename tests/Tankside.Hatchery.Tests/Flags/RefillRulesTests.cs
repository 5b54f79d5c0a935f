using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class RefillRulesTests
{
    private static TankStory Refilled(double from, double to, double percent = 50) => TankStory.Eggs()
        .Water(0, 8, from).Seen(0, 11, new Observation { WaterC = to, WaterChangedPercent = percent });

    [Theory]
    [InlineData(10, 7.3, false)]
    [InlineData(10, 7.2, true)]
    [InlineData(10, 12.8, false)]
    public void A_refill_is_too_cold_when_the_tank_falls_by_five_fahrenheit(double from, double to, bool told) =>
        Assert.Equal(told, RefillRules.MuchColder(Refilled(from, to).Situation()) is not null);

    [Fact]
    public void It_says_what_fell_when_and_how_much_was_changed() => Assert.Equal(
        new RefillEvidence(LifeStage.Egg, 6, TankStory.At(0, 11), 10, TankStory.At(0, 8), 50),
        RefillRules.MuchColder(Refilled(10, 6).Situation())!.Evidence);

    [Fact]
    public void Without_a_change_or_a_day_and_a_half_later_it_is_no_refill()
    {
        Assert.Null(RefillRules.MuchColder(TankStory.Eggs().Water(0, 8, 10).Water(0, 11, 6).Situation()));
        Assert.Null(RefillRules.MuchColder(TankStory.Eggs().Water(-2, 8, 10).Seen(0, 11, new Observation { WaterC = 6, WaterChangedPercent = 50 }).Situation()));
        Assert.NotNull(RefillRules.MuchColder(Refilled(10, 6).Situation(day: 1)));
        Assert.Null(RefillRules.MuchColder(Refilled(10, 6).Situation(day: 3)));
    }

    [Fact]
    public void The_next_reading_that_stays_there_ends_it() => Assert.Null(RefillRules.MuchColder(Refilled(10, 6).Water(1, 9, 6.5).Situation(day: 1)));

    [Fact]
    public void A_tank_has_one_flag_of_cold() => Assert.Single(Refilled(10, 3.5).Findings(), f => f.Kind is FlagKind.Cold or FlagKind.IcedCoil);
}
