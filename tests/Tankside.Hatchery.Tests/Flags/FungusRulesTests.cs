using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class FungusRulesTests
{
    private static Finding? Fungus(TankStory tank, int day = 0) => FungusRules.FungusSeen(tank.Situation(day));

    private static Observation Seen(bool fungus, int? deadEggs = null) => new() { Fungus = fungus, DeadEggs = deadEggs };

    private static FungusEvidence Numbers(Finding? found) => Assert.IsType<FungusEvidence>(found!.Evidence);

    [Fact]
    public void White_fluff_is_for_today_until_it_is_said_to_be_gone()
    {
        var found = Fungus(TankStory.Eggs().Seen(0, 9, Seen(true)));

        Assert.Equal((FlagKind.Fungus, Urgency.Today, TankStory.At(0, 9)), (found!.Kind, found.Urgency, found.StandsOn));
        Assert.Null(Fungus(TankStory.Eggs().Seen(0, 9, Seen(true)).Seen(0, 10, Seen(false))));
        Assert.NotNull(Fungus(TankStory.Eggs().Seen(0, 9, Seen(true)).Water(3, 9, 10.5), 3));
        Assert.Null(Fungus(TankStory.Eggs().Water(0, 9, 10.5)));
    }

    [Fact]
    public void It_is_worse_while_nobody_says_that_the_dead_were_taken_out()
    {
        var left = Fungus(TankStory.Eggs().Seen(0, 9, Seen(true)));
        var picked = Fungus(TankStory.Eggs().Seen(0, 9, Seen(true, deadEggs: 14)));

        Assert.True(Numbers(left).DeadLeft);
        Assert.Equal((false, 14), (Numbers(picked).DeadLeft, Numbers(picked).DeadPicked));
        Assert.True(left!.Hazard.ShareLost > picked!.Hazard.ShareLost);
    }

    [Fact]
    public void Taking_them_out_later_or_the_same_morning_counts_and_the_day_before_does_not()
    {
        Assert.False(Numbers(Fungus(TankStory.Eggs().Seen(0, 9, Seen(true)).Seen(0, 11, new Observation { DeadEggs = 3 }))).DeadLeft);
        Assert.False(Numbers(Fungus(TankStory.Eggs().Seen(0, 8, new Observation { DeadEggs = 3 }).Seen(0, 9, Seen(true)))).DeadLeft);
        Assert.True(Numbers(Fungus(TankStory.Eggs().Seen(-1, 9, new Observation { DeadEggs = 3 }).Seen(0, 9, Seen(true)))).DeadLeft);
    }

    [Fact]
    public void Swimming_fry_have_no_dead_eggs_left_under_them() =>
        Assert.False(Numbers(Fungus(TankStory.Of(LifeStage.Fry).Seen(0, 9, Seen(true)))).DeadLeft);

    [Fact]
    public void It_is_told_since_when_it_has_been_seen() =>
        Assert.Equal(
            TankStory.At(-2, 9),
            Numbers(Fungus(TankStory.Eggs().Seen(-4, 9, Seen(true)).Seen(-3, 9, Seen(false)).Seen(-2, 9, Seen(true)).Seen(0, 9, Seen(true)))).Since);

    [Fact]
    public void A_word_that_comes_late_does_not_end_it() =>
        Assert.NotNull(Fungus(TankStory.Eggs().Seen(0, 9, Seen(true)).Seen(-2, 9, Seen(false))));
}
