using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class ContradictionRulesTests
{
    private static Finding? Contradictory(TankStory tank, int day = 0, int hour = 12) => ContradictionRules.CannotBothBe(tank.Situation(day, hour));

    private static ContradictionEvidence Facts(Finding? found) => Assert.IsType<ContradictionEvidence>(found!.Evidence);

    public static TheoryData<Observation, SaidFact> NoneHatchedAnd => new()
    {
        { new Observation { Swimming = Share.Some }, SaidFact.SomeSwim },
        { new Observation { DeadAlevins = 1 }, SaidFact.DeadAlevins },
        { new Observation { DeadFry = 1 }, SaidFact.DeadFry },
        { new Observation { Fed = true }, SaidFact.Fed },
    };

    [Theory]
    [MemberData(nameof(NoneHatchedAnd))]
    public void What_only_the_hatched_can_do_while_none_hatched(Observation seen, SaidFact fact)
    {
        var found = Contradictory(TankStory.Alevins().Seen(-1, 9, new Observation { Hatched = Share.None }).Seen(0, 9, seen with { Hatched = Share.None }));

        Assert.Equal((FlagKind.Contradictory, Urgency.ThisWeek, TankStory.At(0, 9)), (found!.Kind, found.Urgency, found.StandsOn));
        Assert.Equal((fact, SaidFact.NoneHatched), (Facts(found).One, Facts(found).Other));
    }

    [Theory]
    [MemberData(nameof(NoneHatchedAnd))]
    public void Readings_minutes_apart_are_one_look_and_hours_apart_are_two(Observation seen, SaidFact fact)
    {
        TankStory Apart(double minutes) => TankStory.Fry().Seen(-1, 9, new Observation { Hatched = Share.None })
            .Seen(0, 9, new Observation { Hatched = Share.None }).Seen(0, 9 + (minutes / 60), seen);

        Assert.Equal(fact, Facts(Contradictory(Apart(9))).One);
        Assert.Null(Contradictory(Apart(11)));
    }

    [Theory]
    [MemberData(nameof(NoneHatchedAnd))]
    public void A_later_word_on_hatching_ends_it(Observation seen, SaidFact fact)
    {
        var tank = TankStory.Alevins().Seen(-1, 9, new Observation { Hatched = Share.None }).Seen(0, 9, seen with { Hatched = Share.None });

        Assert.Equal(fact, Facts(Contradictory(tank)).One);
        Assert.Null(Contradictory(tank.Seen(0, 11, new Observation { Hatched = Share.Some })));
    }

    public static TheoryData<Observation> Possible => new()
    {
        new Observation { Hatched = Share.None, Swimming = Share.None, DeadAlevins = 0, DeadFry = 0, Fed = false, DeadEggs = 3 },
        new Observation { Hatched = Share.Some, DeadAlevins = 1, DeadEggs = 2 },
        new Observation { Hatched = Share.Half, Swimming = Share.Some },
        new Observation { Moving = false, Bubbles = true },
        new Observation { IceOnCoil = true, WaterC = 16, ChillerRunning = true },
    };

    [Theory]
    [MemberData(nameof(Possible))]
    public void What_can_be_is_left_alone(Observation seen) =>
        Assert.Null(Contradictory(TankStory.Eggs().Seen(0, 9, seen)));

    [Fact]
    public void What_has_hatched_does_not_go_back_until_it_is_said_again()
    {
        var tank = TankStory.Eggs().Seen(-1, 9, new Observation { Hatched = Share.Most }).Seen(0, 9, new Observation { Hatched = Share.None });

        Assert.Equal((SaidFact.MostHatched, TankStory.At(-1, 9), SaidFact.NoneHatched), (Facts(Contradictory(tank)).One, Facts(Contradictory(tank)).OneAt, Facts(Contradictory(tank)).Other));
        Assert.Null(Contradictory(tank.Seen(0, 11, new Observation { Hatched = Share.None })));
        Assert.Null(Contradictory(TankStory.Eggs().Seen(-1, 9, new Observation { Hatched = Share.Some }).Seen(0, 9, new Observation { Hatched = Share.None })));
    }

    [Fact]
    public void Food_for_eggs_that_cannot_have_hatched_is_asked_about_and_for_fry_it_is_not()
    {
        var fed = new Observation { Fed = true };

        Assert.Equal((SaidFact.Fed, SaidFact.HatchNotDue), (Facts(Contradictory(TankStory.Eggs().Seen(0, 9, fed))).One, Facts(Contradictory(TankStory.Eggs().Seen(0, 9, fed))).Other));
        Assert.Null(Contradictory(TankStory.Eggs().Seen(0, 9, fed).Seen(0, 11, new Observation { Fed = false })));
        Assert.Null(Contradictory(TankStory.Fry().Seen(0, 9, fed)));
    }

    private static Observation Off(double celsius) => new() { ChillerRunning = false, WaterC = celsius };

    [Fact]
    public void Water_that_cools_in_a_warm_room_without_its_chiller()
    {
        var found = Contradictory(TankStory.Eggs().Seen(0, 8, Off(14)).Seen(0, 11, Off(12.5)));
        var facts = Facts(found);

        Assert.Equal((Urgency.Today, TankStory.At(0, 11)), (found!.Urgency, found.StandsOn));
        Assert.Equal((SaidFact.ChillerOff, SaidFact.WaterFell, 12.5, 14.0), (facts.One, facts.Other, facts.OneWaterC, facts.OtherWaterC));
    }

    [Fact]
    public void It_is_possible_with_a_water_change_a_cold_room_a_small_fall_or_a_chiller_that_ran()
    {
        Assert.Null(Contradictory(TankStory.Eggs().Seen(0, 8, Off(14)).Seen(0, 9, new Observation { WaterChangedPercent = 20 }).Seen(0, 11, Off(12.5))));
        Assert.Null(Contradictory(TankStory.Eggs().Seen(0, 8, Off(14)).Seen(0, 11, Off(12.5) with { RoomC = 13 })));
        Assert.Null(Contradictory(TankStory.Eggs().Seen(0, 8, Off(14)).Seen(0, 11, Off(12.6))));
        Assert.Null(Contradictory(TankStory.Eggs().Seen(0, 8, new Observation { ChillerRunning = true, WaterC = 14 }).Seen(0, 11, Off(12.5))));
        Assert.Null(Contradictory(TankStory.Eggs().Seen(-2, 8, Off(14)).Seen(0, 11, Off(12.5))));
        Assert.Null(Contradictory(TankStory.Eggs().Seen(0, 10.5, Off(14)).Seen(0, 11, Off(12.5))));
    }

    [Fact]
    public void A_later_temperature_or_a_running_chiller_ends_it()
    {
        Assert.Null(Contradictory(TankStory.Eggs().Seen(0, 8, Off(14)).Seen(0, 10, Off(12)).Water(0, 11, 13)));
        Assert.Null(Contradictory(TankStory.Eggs().Seen(0, 8, Off(14)).Seen(0, 10, Off(12)).Seen(0, 11, new Observation { ChillerRunning = true })));
    }

    [Theory]
    [InlineData(9, true)]
    [InlineData(10, false)]
    public void It_is_asked_about_for_a_week(int hour, bool asked) =>
        Assert.Equal(asked, Contradictory(TankStory.Alevins().Seen(-1, 9, new Observation { Hatched = Share.None })
            .Seen(0, 9, new Observation { Hatched = Share.None, Swimming = Share.Some }), 7, hour) is not null);

    [Fact]
    public void An_old_word_that_comes_late_does_not_end_it()
    {
        var tank = TankStory.Eggs().Seen(0, 9, new Observation { Hatched = Share.None, Swimming = Share.Some });

        Assert.Equal(Contradictory(tank), Contradictory(tank.Seen(-3, 9, new Observation { Hatched = Share.None, Swimming = Share.None })));
    }
}
