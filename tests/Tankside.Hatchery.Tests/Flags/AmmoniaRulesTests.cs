using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class AmmoniaRulesTests
{
    private static Finding? Ammonia(TankStory tank, int day = 0, int hour = 12) => AmmoniaRules.PoisonousAmmonia(tank.Situation(day, hour));

    private static TankStory Tested(double total, double? ph, double celsius = 10) =>
        TankStory.Fry().Seen(0, 9, new Observation { AmmoniaTotalMgL = total, Ph = ph, WaterC = celsius });

    private static AmmoniaEvidence Numbers(Finding? found) => Assert.IsType<AmmoniaEvidence>(found!.Evidence);

    [Fact]
    public void The_same_total_is_harmless_at_pH_7_and_poison_at_pH_8()
    {
        Assert.Null(Ammonia(Tested(2, 7)));

        var found = Ammonia(Tested(2, 8));
        Assert.Equal((FlagKind.Ammonia, Urgency.ActNow, TankStory.At(0, 9)), (found!.Kind, found.Urgency, found.StandsOn));
        Assert.InRange(Numbers(found).UnionizedN!.Value, 0.0360, 0.0368); // 1.82% of 2 mg/L
    }

    [Theory]
    [InlineData(0.56, null, null)]
    [InlineData(0.57, Urgency.Today, 0.0103)]
    [InlineData(0.89, Urgency.Today, 0.0103)]
    [InlineData(0.91, Urgency.ActNow, 0.0164)]
    public void At_pH_8_and_10_degrees_the_limits_lie_at_these_totals(double total, Urgency? urgency, double? limit)
    {
        var found = Ammonia(Tested(total, 8));

        Assert.Equal(urgency, found?.Urgency);
        Assert.Equal(limit, (found?.Evidence as AmmoniaEvidence)?.Limit);
    }

    [Fact]
    public void Warmer_water_sets_more_of_it_free()
    {
        Assert.Null(Ammonia(Tested(0.5, 8)));
        Assert.Equal(Urgency.Today, Ammonia(Tested(0.5, 8, 15))!.Urgency);
    }

    [Fact]
    public void Without_a_pH_it_is_a_question_and_never_a_judgement()
    {
        var found = Ammonia(Tested(50, null));

        Assert.Equal(Urgency.Today, found!.Urgency);
        Assert.Equal((null, null, null), (Numbers(found).Ph, Numbers(found).PhAt, Numbers(found).UnionizedN));
        Assert.Equal(0.03, found.Hazard.ShareLost);
    }

    [Fact]
    public void A_total_that_could_not_harm_even_at_pH_8_is_not_asked_about()
    {
        Assert.Null(Ammonia(Tested(0.5, null)));
        Assert.NotNull(Ammonia(Tested(0.57, null)));
    }

    [Theory]
    [InlineData(9, true)]
    [InlineData(8.9, false)]
    public void A_pH_serves_for_seven_days(double hour, bool serves)
    {
        var found = Ammonia(TankStory.Fry().Seen(-7, hour, new Observation { Ph = 8 }).Seen(0, 9, new Observation { AmmoniaTotalMgL = 2 }));

        Assert.Equal(serves ? 8.0 : null, Numbers(found).Ph);
        Assert.Equal(serves ? Urgency.ActNow : Urgency.Today, found!.Urgency);
    }

    [Fact]
    public void The_pH_read_nearest_to_the_test_is_taken()
    {
        var tank = TankStory.Fry().Seen(-3, 9, new Observation { Ph = 8.2 }).Seen(0, 9, new Observation { AmmoniaTotalMgL = 2 })
            .Seen(0, 11, new Observation { Ph = 7 });

        Assert.Null(Ammonia(tank));
    }

    [Fact]
    public void A_newer_test_below_the_limit_ends_it() =>
        Assert.Null(Ammonia(Tested(2, 8).Seen(0, 11, new Observation { AmmoniaTotalMgL = 0.25 })));

    [Fact]
    public void A_test_speaks_for_four_days()
    {
        Assert.NotNull(Ammonia(Tested(2, 8), 4, 9));
        Assert.Null(Ammonia(Tested(2, 8), 4, 10));
    }
}
