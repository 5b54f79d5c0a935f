using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>Faults as those who had them told them, and what to ask while they cannot be told apart.</summary>
public class DiagnosisTests
{
    private static readonly Observation FlowIsOn = new() { Moving = true, Bubbles = true };

    private static readonly Observation AllOff = new() { ChillerRunning = false, Moving = false, Bubbles = false };

    private static double F(double fahrenheit) => Celsius.FromFahrenheit(fahrenheit).Degrees;

    /// <summary>51 °F is the set point.</summary>
    private static TankStory Tank() => TankStory.Fry().Tank(t => t with { SetPointC = F(51) });

    private static TankStory SlowDrop() => Tank().Water(-4, 9, F(51)).Water(-3, 9, F(50)).Water(-2, 9, F(49.5)).Water(-1, 9, F(49));

    private static TankStory SunnyDays()
    {
        var tank = Tank();
        for (var day = -3; day < 0; day++)
        {
            tank.Water(day, 8.5, F(51.5)).Water(day, 14, F(54.5));
        }

        return tank.Water(0, 8.5, F(51.5)).Water(0, 11.8, F(54));
    }

    /// <summary>12.9 °C, read to a tenth, for nine days.</summary>
    private static TankStory SameNumber()
    {
        var tank = Tank();
        for (var day = -8; day <= 0; day++)
        {
            tank.Water(day, 9, 12.9);
        }

        return tank;
    }

    public static TheoryData<string, Suspect> Told { get; } = new()
    {
        { "a degree or two lower over days, then a rise", Suspect.CoilIced },
        { "ice seen and the water rises", Suspect.CoilIced },
        { "far colder than the chiller aims for", Suspect.CoilIced },
        { "rises with pump and air on and the chiller off", Suspect.ChillerDead },
        { "rises, everything hums, a cold display", Suspect.BlockedFlow },
        { "everything off and the lights on", Suspect.PlugOrBreaker },
        { "everything off and the lights out", Suspect.PowerCut },
        { "still water, the rest runs", Suspect.PumpStopped },
        { "no bubbles, the rest runs", Suspect.AirStopped },
        { "steady at a wrong number since a day of cleaning", Suspect.SetPoint },
        { "steady at a wrong number and a set screen that is wrong", Suspect.SetPoint },
        { "warm afternoons and cool mornings", Suspect.RoomOrSun },
        { "the very same number for days", Suspect.Thermometer },
        { "colder in one go after a water change", Suspect.WaterChange },
        { "warmer in one go after a water change", Suspect.WaterChange },
        { "back to the set point", Suspect.NothingWrong },
    };

    private static Diagnosis Of(string story) => story switch
    {
        "a degree or two lower over days, then a rise" => Now(SlowDrop().Seen(0, 9, FlowIsOn with { WaterC = F(54) })),
        "ice seen and the water rises" => Now(Tank().Water(-1, 14, F(51)).Seen(0, 9, FlowIsOn with { WaterC = F(56), IceOnCoil = true, ChillerRunning = true })),
        "far colder than the chiller aims for" => Now(Tank().Water(-1, 9, F(46)).Water(0, 9, F(38))),
        "rises with pump and air on and the chiller off" =>
            Now(Tank().Water(-1, 9, F(51)).Seen(0, 9, FlowIsOn with { WaterC = F(57), ChillerRunning = false })),
        "rises, everything hums, a cold display" => Now(
            Tank().Water(-1, 9, F(51)).Seen(0, 9, FlowIsOn with { WaterC = F(57), ChillerRunning = true, IceOnCoil = false }), (NextQuestion.DisplayAgrees, false)),
        "everything off and the lights on" => Now(Tank().Water(-1, 9, F(51)).Seen(0, 9, AllOff), (NextQuestion.LightsOn, true)),
        "everything off and the lights out" => Now(Tank().Water(-1, 9, F(51)).Seen(0, 9, AllOff), (NextQuestion.LightsOn, false)),
        "still water, the rest runs" => Now(Tank().Seen(0, 9, new Observation { WaterC = F(51), Moving = false, Bubbles = true, ChillerRunning = true })),
        "no bubbles, the rest runs" => Now(Tank().Seen(0, 9, new Observation { WaterC = F(51), Moving = true, Bubbles = false, ChillerRunning = true })),
        "steady at a wrong number since a day of cleaning" => Now(
            Tank().Water(-4, 9, F(51)).Seen(-3, 10, new Observation { WaterC = F(57), WaterChangedPercent = 20 })
                .Water(-2, 9, F(57)).Water(-1, 9, F(57.4)).Water(0, 9, F(57))),
        "steady at a wrong number and a set screen that is wrong" => Now(
            Tank().Water(-2, 9, F(57)).Water(-1, 9, F(57.4)).Water(0, 9, F(57)), (NextQuestion.SetAsAgreed, false)),
        "warm afternoons and cool mornings" => Now(SunnyDays()),
        "the very same number for days" => Now(SameNumber()),
        "colder in one go after a water change" => Now(
            Tank().Water(-1, 14, F(51)).Seen(0, 9, FlowIsOn with { WaterC = F(51) - 4, WaterChangedPercent = 25 })),
        "warmer in one go after a water change" => Now(
            Tank().Seen(0, 9, new Observation { WaterC = F(51), WaterChangedPercent = 25 }).Seen(0, 10, FlowIsOn with { WaterC = F(55) })),
        "back to the set point" => Now(Tank().Water(-1, 9, F(56)).Seen(0, 9, FlowIsOn with { WaterC = F(51), ChillerRunning = true })),
        _ => throw new ArgumentOutOfRangeException(nameof(story), story, "not told"),
    };

    private static Diagnosis Now(TankStory tank, params (NextQuestion Question, bool Yes)[] told) =>
        Diagnosis.Of(tank.Situation(), told.ToDictionary(t => t.Question, t => t.Yes));

    [Theory, MemberData(nameof(Told))]
    public void A_told_fault_is_named(string story, Suspect suspect)
    {
        var found = Of(story);

        Assert.Equal((suspect, suspect), (found.Leading, Assert.Single(found.Remaining).Suspect));
    }

    [Theory]
    [InlineData("everything stopped together", NextQuestion.LightsOn, Suspect.PlugOrBreaker, Suspect.PowerCut)]
    [InlineData("slowly down", NextQuestion.IceOnCoil, Suspect.CoilIced, Suspect.Probe)]
    [InlineData("rises and nobody looked at the chiller", NextQuestion.ChillerRunning, Suspect.ChillerDead, Suspect.CoilIced)]
    [InlineData("rises and everything hums", NextQuestion.DisplayAgrees, Suspect.ChillerDead, Suspect.BlockedFlow)]
    [InlineData("steady at a wrong number", NextQuestion.SetAsAgreed, Suspect.SetPoint, Suspect.Thermometer)]
    public void Where_two_remain_the_question_that_parts_them_is_asked(string story, NextQuestion ask, Suspect one, Suspect other)
    {
        var found = Now(story switch
        {
            "everything stopped together" => Tank().Water(-1, 9, F(51)).Seen(0, 9, AllOff),
            "slowly down" => SlowDrop(),
            "rises and nobody looked at the chiller" => Tank().Water(-1, 9, F(51)).Seen(0, 9, FlowIsOn with { WaterC = F(57) }),
            "rises and everything hums" => Tank().Water(-1, 9, F(51)).Seen(0, 9, FlowIsOn with { WaterC = F(57), ChillerRunning = true, IceOnCoil = false }),
            _ => Tank().Water(-2, 9, F(57)).Water(-1, 9, F(57.4)).Water(0, 9, F(57)),
        });

        Assert.Null(found.Leading);
        Assert.InRange(found.Remaining.Count, 2, 3);
        Assert.Superset(new HashSet<Suspect> { one, other }, found.Remaining.Select(r => r.Suspect).ToHashSet());
        Assert.Equal(ask, found.Ask);
    }

    [Fact]
    public void A_change_of_water_that_leads_is_asked_for_the_warmth_of_the_refill() =>
        Assert.Equal(NextQuestion.RefillFitted, Of("colder in one go after a water change").Ask);

    [Fact]
    public void What_was_told_by_telephone_counts_over_what_was_ticked()
    {
        var ticked = Tank().Water(-1, 9, F(51)).Seen(0, 9, FlowIsOn with { WaterC = F(57), ChillerRunning = false });

        Assert.NotEqual(Suspect.ChillerDead, Now(ticked, (NextQuestion.ChillerRunning, true)).Leading);
    }

    [Fact]
    public void An_old_tick_no_longer_speaks()
    {
        var known = Now(Tank().Seen(-2, 9, AllOff).Seen(0, 9, new Observation { WaterC = F(51), Bubbles = true })).Known;

        Assert.Equal(new Dictionary<NextQuestion, bool> { [NextQuestion.Bubbles] = true }, known);
    }

    [Fact]
    public void A_question_is_not_asked_twice()
    {
        var told = new Dictionary<NextQuestion, bool>();
        var tank = Tank().Water(-1, 9, F(51)).Water(0, 9, F(57)).Situation();
        while (Diagnosis.Of(tank, told).Ask is { } question)
        {
            Assert.True(told.TryAdd(question, true));
        }

        Assert.NotEmpty(told);
    }

    [Fact]
    public void Shares_fall_in_order_and_are_shares() => Assert.All(Told.Select(row => Of((string)row[0])), found =>
    {
        Assert.All(found.Remaining, r => Assert.InRange(r.Share, 0, 1));
        Assert.Equal(found.Remaining.Select(r => r.Share).OrderDescending(), found.Remaining.Select(r => r.Share));
    });

    [Fact]
    public void Every_finding_of_warmth_and_flow_carries_the_suspect_and_no_other_does()
    {
        var found = Tank().Water(-1, 9, F(51)).Seen(0, 9, FlowIsOn with { WaterC = F(61), ChillerRunning = false, DeadFry = 60 }).Findings();

        Assert.Equal(
            [(FlagKind.Warm, Suspect.ChillerDead), (FlagKind.WarmingFast, Suspect.ChillerDead), (FlagKind.ChillerFault, Suspect.ChillerDead), (FlagKind.DieOff, (Suspect?)null)],
            found.Select(f => (f.Kind, f.Evidence.LooksLike)));
    }
}
