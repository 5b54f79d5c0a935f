using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class NitriteRulesTests
{
    private static Finding? Nitrite(TankStory tank, int day = 0, int hour = 12) => NitriteRules.HighNitrite(tank.Situation(day, hour));

    private static Observation Tested(double mgL) => new() { NitriteMgL = mgL };

    private static NitriteEvidence Numbers(Finding? found) => Assert.IsType<NitriteEvidence>(found!.Evidence);

    [Theory]
    [InlineData(0.05, null, null)]
    [InlineData(0.06, Urgency.Today, 0.06)]
    [InlineData(0.15, Urgency.Today, 0.15)]
    [InlineData(0.49, Urgency.Today, 0.15)]
    [InlineData(0.5, Urgency.ActNow, 0.15)]
    public void One_test_alone_is_for_today_unless_it_is_far_above(double mgL, Urgency? urgency, double? limit)
    {
        var found = Nitrite(TankStory.Fry().Seen(0, 9, Tested(mgL)));

        Assert.Equal(urgency, found?.Urgency);
        Assert.Equal(limit, (found?.Evidence as NitriteEvidence)?.Limit);
    }

    [Fact]
    public void One_high_step_asks_for_a_second_test()
    {
        Assert.True(Numbers(Nitrite(TankStory.Fry().Seen(-2, 9, Tested(0)).Seen(0, 9, Tested(0.25)))).TestAgain);
        Assert.False(Numbers(Nitrite(TankStory.Fry().Seen(0, 9, Tested(1)))).TestAgain);
    }

    [Theory]
    [InlineData(0.06, 0.25, Urgency.ActNow)]
    [InlineData(0.05, 0.25, Urgency.Today)]
    [InlineData(0.25, 0.14, Urgency.Today)]
    [InlineData(0.25, 0.15, Urgency.ActNow)]
    public void Two_in_a_row_are_acted_on(double first, double second, Urgency urgency)
    {
        var found = Nitrite(TankStory.Fry().Seen(-2, 9, Tested(first)).Seen(0, 9, Tested(second)));

        Assert.Equal((FlagKind.Nitrite, urgency, TankStory.At(0, 9)), (found!.Kind, found.Urgency, found.StandsOn));
        Assert.Equal(first >= 0.06 ? first : null, Numbers(found).BeforeMgL);
        Assert.Equal(first < 0.06, Numbers(found).TestAgain);
    }

    [Fact]
    public void The_same_test_told_twice_is_no_second_test()
    {
        var tank = TankStory.Fry().Seen(0, 9, Tested(0.25));

        Assert.Equal(Urgency.Today, Nitrite(tank.Seen(0, 9.1, Tested(0.25)))!.Urgency);
        Assert.Equal(Urgency.ActNow, Nitrite(tank.Seen(0, 10, Tested(0.25)))!.Urgency);
    }

    [Theory]
    [InlineData(-10, Urgency.ActNow)]
    [InlineData(-11, Urgency.Today)]
    public void A_test_long_ago_is_none_in_a_row(int day, Urgency urgency) =>
        Assert.Equal(urgency, Nitrite(TankStory.Fry().Seen(day, 9, Tested(0.25)).Seen(0, 9, Tested(0.25)))!.Urgency);

    [Fact]
    public void A_good_second_test_ends_it_and_an_old_one_that_comes_late_does_not()
    {
        Assert.Null(Nitrite(TankStory.Fry().Seen(0, 9, Tested(0.25)).Seen(0, 11, Tested(0))));
        Assert.Equal(Urgency.Today, Nitrite(TankStory.Fry().Seen(0, 9, Tested(0.25)).Seen(-3, 9, Tested(0)))!.Urgency);
    }

    [Fact]
    public void A_test_speaks_for_four_days()
    {
        Assert.NotNull(Nitrite(TankStory.Fry().Seen(0, 9, Tested(0.25)), 4, 9));
        Assert.Null(Nitrite(TankStory.Fry().Seen(0, 9, Tested(0.25)), 4, 10));
    }

    [Fact]
    public void Eggs_have_the_same_limits() => Assert.NotNull(Nitrite(TankStory.Eggs().Seen(0, 9, Tested(0.06))));
}
