using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class LossRulesTests
{
    private static Observation Dead(int eggs) => new() { DeadEggs = eggs };

    private static Finding? DieOff(TankStory tank, int day = 0) => LossRules.DieOff(tank.Situation(day, 16));

    private static LossEvidence Numbers(Finding? found) => Assert.IsType<LossEvidence>(found!.Evidence);

    /// <summary>An ordinary start: none or one dead a day.</summary>
    private static TankStory Calm() => TankStory.Eggs().Seen(-5, 9, Dead(1)).Seen(-2, 9, Dead(0)).Seen(-1, 9, Dead(1));

    [Fact]
    public void Three_dead_among_two_hundred_are_no_die_off() => Assert.Null(DieOff(Calm().Seen(0, 9, Dead(3))));

    [Fact]
    public void Fourteen_dead_among_two_hundred_are()
    {
        var found = DieOff(Calm().Seen(0, 9, Dead(14)));
        var numbers = Numbers(found);

        Assert.Equal((FlagKind.DieOff, Urgency.ActNow, TankStory.At(0, 9)), (found!.Kind, found.Urgency, found.StandsOn));
        Assert.Equal((15, 2, TankStory.Wednesday, 200), (numbers.Dead, numbers.Days, numbers.LastDay, numbers.Fish));
        Assert.InRange(numbers.Expected, 0.3, 1.2);
        Assert.InRange(numbers.Tail, 0, 0.001);
    }

    [Fact]
    public void Fewer_than_three_dead_never_alarm_however_few_the_fish() =>
        Assert.Null(DieOff(TankStory.Eggs().Fish(2).With(Limits.DieOffTail, 1).Seen(0, 9, Dead(2))));

    [Fact]
    public void A_count_after_the_weekend_is_of_three_days()
    {
        var monday = TankStory.Eggs().Lot(l => l with { DeliveredOn = TankStory.Wednesday.AddDays(-9) })
            .Seen(-9, 9, Dead(0)).Seen(-6, 9, Dead(0)).Seen(-5, 9, Dead(0)).Seen(-2, 9, Dead(14));
        var friday = TankStory.Eggs().Lot(l => l with { DeliveredOn = TankStory.Wednesday.AddDays(-9) })
            .Seen(-9, 9, Dead(0)).Seen(-7, 9, Dead(0)).Seen(-6, 9, Dead(0)).Seen(-5, 9, Dead(14));

        Assert.Equal(3, Numbers(DieOff(monday, -2)).Days);
        Assert.True(Numbers(DieOff(monday, -2)).Tail > Numbers(DieOff(friday, -5)).Tail);
    }

    [Fact]
    public void A_first_count_is_of_all_days_since_the_delivery() =>
        Assert.Equal(6, Numbers(DieOff(TankStory.Eggs().Seen(0, 9, Dead(60)))).Days);

    [Fact]
    public void Siblings_that_lose_more_raise_what_is_usual_up_to_twice()
    {
        double Expected(int deaths) => Numbers(DieOff(Calm().Siblings(deaths, 10_000).Seen(0, 9, Dead(25)))).Expected;

        Assert.True(Expected(30) > Expected(20));
        Assert.True(Expected(20) > Expected(5));
        Assert.Equal(Expected(400), Expected(4000));
    }

    [Fact]
    public void The_same_dead_alarm_beside_calm_siblings_and_not_beside_dying_ones()
    {
        var calm = Calm().Siblings(0, 20_000).Seen(0, 9, Dead(5));
        var dying = Calm().Siblings(80, 20_000).Seen(0, 9, Dead(5));

        Assert.NotNull(DieOff(calm));
        Assert.Null(DieOff(dying));
    }

    [Fact]
    public void Own_earlier_losses_make_more_usual()
    {
        static TankStory Past(int each) =>
            TankStory.Eggs().Seen(-5, 9, Dead(each)).Seen(-4, 9, Dead(each)).Seen(-3, 9, Dead(each)).Seen(0, 9, Dead(20));

        Assert.True(Numbers(DieOff(Past(2).With(Limits.DieOffTail, 1))).Expected > Numbers(DieOff(Past(0))).Expected);
    }

    [Fact]
    public void A_calm_count_ends_it_and_a_day_without_a_count_does_not()
    {
        Assert.NotNull(DieOff(Calm().Seen(0, 9, Dead(14)).Water(1, 9, 10.5), 1));
        Assert.Null(DieOff(Calm().Seen(0, 9, Dead(14)).Seen(1, 9, Dead(0)).Seen(2, 9, Dead(0)), 2));
    }

    [Theory]
    [InlineData(7, true)]
    [InlineData(8, false)]
    public void A_count_older_than_a_week_is_history(int day, bool alarms) =>
        Assert.Equal(alarms, DieOff(Calm().Seen(0, 9, Dead(14)), day) is not null);

    [Fact]
    public void Eggs_alevins_and_fry_found_dead_together_are_one_count() =>
        Assert.Equal(18, Numbers(DieOff(TankStory.Alevins().Seen(0, 9, new Observation { DeadEggs = 4, DeadAlevins = 14 }).With(Limits.DieOffTail, 1))).Dead);
}
