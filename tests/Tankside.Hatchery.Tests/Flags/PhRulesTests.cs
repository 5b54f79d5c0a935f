using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class PhRulesTests
{
    private static Finding? Sag(TankStory tank, int day = 0) => PhRules.PhSag(tank.Situation(day));

    private static TankStory Tested(params (int Day, double Ph)[] tests) =>
        tests.Aggregate(TankStory.Fry(), (tank, test) => tank.Seen(test.Day, 9, new Observation { Ph = test.Ph }));

    private static PhEvidence Numbers(Finding? found) => Assert.IsType<PhEvidence>(found!.Evidence);

    [Theory]
    [InlineData(6.5, false)]
    [InlineData(6.4, true)]
    public void Under_the_limit_is_for_today(double ph, bool flagged)
    {
        var found = Sag(Tested((0, ph)));

        Assert.Equal(flagged ? FlagKind.PhSag : null, found?.Kind);
        Assert.Equal(flagged ? Urgency.Today : null, found?.Urgency);
        Assert.Equal(flagged ? TankStory.At(0, 9) : null, found?.StandsOn);
        Assert.Null((found?.Evidence as PhEvidence)?.FallPerWeek);
    }

    [Fact]
    public void Every_stage_has_the_same_limit() =>
        Assert.All(Enum.GetValues<LifeStage>(), stage => Assert.NotNull(Sag(TankStory.Of(stage).Seen(0, 9, new Observation { Ph = 6.4 }))));

    [Fact]
    public void Two_tenths_a_week_down_is_for_this_week()
    {
        var found = Sag(Tested((-14, 7.2), (-7, 7.0), (0, 6.8)));

        Assert.Equal(Urgency.ThisWeek, found!.Urgency);
        Assert.Equal((0.2, 7.2, TankStory.At(-14, 9), null), (Numbers(found).FallPerWeek!.Value, Numbers(found).FromPh!.Value, Numbers(found).FromAt, Numbers(found).Limit));
    }

    [Fact]
    public void A_slower_fall_is_none() => Assert.Null(Sag(Tested((-14, 7.2), (-7, 7.05), (0, 6.85))));

    [Fact]
    public void A_kit_read_in_steps_of_four_tenths_has_to_fall_two_of_them()
    {
        Assert.Null(Sag(Tested((-14, 7.6), (-10, 7.6), (-5, 7.2), (0, 7.2))));
        Assert.NotNull(Sag(Tested((-14, 7.6), (-7, 7.2), (0, 6.8))));
    }

    [Theory]
    [InlineData(-7, 7.5, 7.0, false)]
    [InlineData(-7, 7.6, 7.0, true)]
    [InlineData(-5, 7.6, 7.0, true)]
    [InlineData(-4, 7.6, 7.0, false)]
    public void Two_readings_have_to_differ_by_more_than_a_kit_does_and_lie_five_days_apart(int day, double first, double last, bool flagged) =>
        Assert.Equal(flagged, Sag(Tested((day, first), (0, last))) is not null);

    [Fact]
    public void One_odd_colour_makes_no_fall() =>
        Assert.Null(Sag(Tested((-16, 7.2), (-12, 7.2), (-9, 7.2), (-5, 7.2), (0, 6.6))));

    [Fact]
    public void Noise_about_a_steady_value_is_no_fall() =>
        Assert.Null(Sag(Tested((-14, 7.5), (-10, 7.0), (-7, 7.4), (-3, 6.9), (0, 7.1))));

    [Fact]
    public void A_loggers_many_readings_of_a_day_are_one()
    {
        var tank = TankStory.Fry();
        for (var hour = 0; hour <= 14 * 24; hour++)
        {
            tank.Seen(-14, 9 + hour, new Observation { Ph = 7.6 - (0.5 * hour / (14 * 24.0)) + (hour % 2 == 0 ? 0.05 : -0.05) });
        }

        Assert.Equal(0.25, Numbers(Sag(tank)).FallPerWeek!.Value, 2);
    }

    [Fact]
    public void Water_that_has_turned_is_no_longer_falling() =>
        Assert.Null(Sag(Tested((-15, 7.4), (-12, 7.2), (-9, 7.0), (-6, 6.8), (0, 7.2))));

    [Fact]
    public void A_newer_reading_over_the_limit_ends_it_and_an_old_one_that_comes_late_does_not()
    {
        Assert.Null(Sag(Tested((-1, 6.4), (0, 6.9))));
        Assert.NotNull(Sag(Tested((0, 6.4), (-1, 6.9))));
    }

    [Theory]
    [InlineData(14, true)]
    [InlineData(15, false)]
    public void A_reading_is_looked_at_for_two_weeks(int day, bool flagged) => Assert.Equal(flagged, PhRules.PhSag(Tested((0, 6.4)).Situation(day, 9)) is not null);

    [Fact]
    public void Under_the_limit_loses_more_than_a_fall() =>
        Assert.True(Sag(Tested((0, 6.4)))!.Hazard.ShareLost > Sag(Tested((-14, 7.2), (-7, 7.0), (0, 6.8)))!.Hazard.ShareLost);
}
