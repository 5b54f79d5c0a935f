using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Leaving;
using Tankside.Hatchery.Readings;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>Day 2 is a Friday; the bell rings at 15:15 and somebody can act on Monday at 8:30.</summary>
public class SafeToLeaveTests
{
    private static readonly Observation AllWell = new() { WaterC = 10.5, Moving = true, Bubbles = true, LevelOk = true, Clear = true, ChillerRunning = true };

    private static LeaveAnswer At(TankStory tank, int day = 2, int hour = 14, int minute = 45) =>
        SafeToLeave.Judge(tank.Record, TankStory.At(day, hour, minute))!;

    private static TankStory ReadToday(TankStory tank, Observation? seen = null) =>
        tank.Seen(1, 9, AllWell).Seen(2, 14 + (40 / 60.0), seen ?? AllWell);

    private static TankStory Foam(TankStory tank) => tank.Tank(t => t with { Jacket = Jacket.Foam });

    /// <summary>Fry that swim since so many days on the Friday.</summary>
    private static TankStory Swimming(int days) => TankStory.Fry().Lot(l => l with
    {
        FertilisedFrom = TankStory.Wednesday.AddDays(-58 - days),
        FertilisedTo = TankStory.Wednesday.AddDays(-58 - days),
        DeliveredOn = TankStory.Wednesday.AddDays(-40 - days),
    });

    /// <summary>Half swim since the day before.</summary>
    private static TankStory JustSwimming => TankStory.Alevins().Seen(1, 8, new Observation { Swimming = Share.Half });

    private static TankStory SpringFish => ReadToday(Swimming(150).Fish(150));

    [Fact]
    public void A_jacketed_egg_tank_read_before_the_bell_is_safe_and_shows_its_worst_hours()
    {
        var answer = At(ReadToday(Foam(TankStory.Eggs())));

        Assert.Equal((LeaveVerdict.Safe, BeforeTheBell.Nothing), (answer.Verdict, answer.Do));
        Assert.InRange(answer.ExpectedLoss, 0.05, 0.5);
        Assert.Equal((LeaveFault.Power, TankStory.At(2, 15, 15)), (answer.Worst.Fault, answer.Worst.From));
        Assert.True(answer.Worst.PassesAt!.Low > answer.Worst.From);
        Assert.Equal((TankStory.At(5, 8, 30), LifeStage.Egg), (answer.ActsAt, answer.Stage));
    }

    [Fact]
    public void Big_fish_in_spring_come_before_eggs_in_winter_and_want_air_of_their_own()
    {
        var (fish, eggs) = (At(SpringFish), At(ReadToday(Foam(TankStory.Eggs().Fish(150)))));

        Assert.True(fish.ExpectedLoss > 1.5 * eggs.ExpectedLoss, $"{fish.ExpectedLoss} of the fish, {eggs.ExpectedLoss} of the eggs");
        Assert.Equal((LeaveVerdict.NotSafe, BeforeTheBell.SpareAir), (fish.Verdict, fish.Do));
        Assert.Null(fish.Worst.LimitC);
        Assert.InRange((fish.Worst.PassesAt!.Low - fish.Worst.From).TotalHours, 0.2, 4);
        Assert.InRange(fish.Worst.ShareLost, 0.7, 0.95);
        Assert.InRange(fish.SavedByDoing, 0.05, fish.ExpectedLoss);
    }

    [Fact]
    public void Bare_glass_warms_sooner_and_loses_more_than_foam()
    {
        var (bare, foam) = (At(ReadToday(TankStory.Eggs())), At(ReadToday(Foam(TankStory.Eggs()))));

        Assert.True(bare.ExpectedLoss > foam.ExpectedLoss);
    }

    [Fact]
    public void The_heat_hours_are_those_of_the_tanks_own_physics()
    {
        var tank = Foam(TankStory.Eggs()).With(Limits.Leaving.PumpPart, 0).With(Limits.Leaving.PowerPart, 0);
        var s = ReadToday(tank).Situation(2, 14, 45);
        var (tau, logSd) = Warming.TimeConstant(new(208), Jacket.Foam);
        var hours = Warming.HoursTo(new(15), new(10.5), s.SettlesAt, tau, logSd)!.Value;

        var worst = At(tank).Worst;

        Assert.Equal((LeaveFault.Chiller, 15.0, 10.5), (worst.Fault, worst.LimitC, worst.StartC));
        Assert.Equal(TankStory.At(2, 15, 15).AddHours(hours.Low), worst.PassesAt!.Low);
        Assert.Equal(TankStory.At(2, 15, 15).AddHours(hours.High), worst.PassesAt.High);
    }

    [Fact]
    public void Warmer_water_passes_its_limit_sooner()
    {
        static DateTime Low(double celsius) => At(ReadToday(
            Foam(TankStory.Eggs()).With(Limits.Leaving.PumpPart, 0), AllWell with { WaterC = celsius })).Worst.PassesAt!.Low;

        Assert.True(Low(11.4) < Low(10.5));
    }

    [Fact]
    public void A_cold_room_never_warms_the_water_to_its_limit()
    {
        var worst = At(ReadToday(TankStory.Eggs().Tank(t => t with { RoomC = 12 }).With(Limits.Leaving.PumpPart, 0).With(Limits.Leaving.PowerPart, 0))).Worst;

        Assert.Equal((null, 0), (worst.PassesAt, worst.ShareLost));
    }

    [Fact]
    public void A_tank_nobody_looked_at_today_is_not_known_and_is_to_be_read()
    {
        var answer = At(TankStory.Eggs().Seen(1, 9, AllWell));

        Assert.Equal((LeaveVerdict.NotKnown, BeforeTheBell.ReadNow), (answer.Verdict, answer.Do));
        Assert.True(answer.ExpectedLoss > At(ReadToday(TankStory.Eggs())).ExpectedLoss);
        Assert.True(answer.SavedByDoing > 0);
    }

    [Fact]
    public void Half_a_look_is_not_known_either()
    {
        var temperature = At(TankStory.Eggs().Water(2, 14, 10.5));
        var flow = At(TankStory.Eggs().Seen(2, 14, new Observation { Moving = true }));

        Assert.Equal((LeaveVerdict.NotKnown, true, false), (temperature.Verdict, temperature.Looked.Temperature, temperature.Looked.Flow));
        Assert.Equal((LeaveVerdict.NotKnown, false, true), (flow.Verdict, flow.Looked.Temperature, flow.Looked.Flow));
        Assert.Equal(LeaveVerdict.Safe, At(TankStory.Eggs().Water(2, 14, 10.5).Seen(2, 14, new Observation { Moving = true })).Verdict);
    }

    [Fact]
    public void Days_ahead_yesterdays_look_is_good_enough_and_from_friday_noon_only_todays()
    {
        var tank = TankStory.Eggs().Seen(0, 9, AllWell).Seen(1, 9, AllWell);

        Assert.Equal(LeaveVerdict.Safe, At(tank, day: 1, hour: 14).Verdict);
        Assert.Equal(LeaveVerdict.Safe, At(tank, day: 2, hour: 11, minute: 59).Verdict);
        Assert.Equal(LeaveVerdict.NotKnown, At(tank, day: 2, hour: 12, minute: 0).Verdict);
    }

    [Theory]
    [InlineData(2, 11, 59, false)]
    [InlineData(2, 12, 0, true)]
    [InlineData(4, 20, 0, true)]
    [InlineData(5, 8, 29, true)]
    [InlineData(5, 8, 30, false)]
    public void It_is_asked_from_noon_of_the_last_day_until_somebody_can_act_again(int day, int hour, int minute, bool asked)
    {
        var calendar = TankStory.Eggs().Calendar;
        var stretch = Hatchery.Places.ClosedStretch.At(calendar, TankStory.At(2, 13));

        Assert.Equal(asked, SafeToLeave.IsAsked(stretch, calendar, LimitSet.Defaults, TankStory.At(day, hour, minute)));
    }

    [Fact]
    public void Once_the_bell_has_rung_only_somebody_with_a_key_can_do_anything()
    {
        var unread = At(TankStory.Eggs().Seen(1, 9, AllWell), day: 2, hour: 20);
        var fish = At(SpringFish, day: 3, hour: 9);

        Assert.Equal((LeaveVerdict.NotKnown, BeforeTheBell.AdultLooks), (unread.Verdict, unread.Do));
        Assert.Equal((LeaveVerdict.NotSafe, BeforeTheBell.AdultLooks), (fish.Verdict, fish.Do));
        Assert.Equal([TankStory.Wednesday.AddDays(3)], fish.LookOn);
        Assert.Empty(At(SpringFish, day: 4, hour: 20).LookOn);
    }

    [Fact]
    public void A_look_on_saturday_starts_the_hours_afresh()
    {
        var answer = At(SpringFish.Seen(3, 10, AllWell), day: 3, hour: 11);

        Assert.Equal(TankStory.At(3, 10), answer.Worst.From);
        Assert.True(answer.ExpectedLoss < At(SpringFish, day: 3, hour: 11).ExpectedLoss);
    }

    [Fact]
    public void Before_two_weeks_of_holiday_even_eggs_want_an_adult_who_looks_every_other_day()
    {
        var answer = At(ReadToday(Foam(TankStory.Eggs()).Closed(5, 16)));

        Assert.Equal((LeaveVerdict.NotSafe, TankStory.At(19, 8, 30)), (answer.Verdict, answer.ActsAt));
        Assert.Equal([3, 5, 7, 9, 11, 13, 15, 17], answer.LookOn.Select(d => d.DayNumber - TankStory.Wednesday.DayNumber));
    }

    [Fact]
    public void Fry_that_learn_to_eat_over_a_holiday_go_to_a_holding_tank()
    {
        var fry = At(ReadToday(JustSwimming).Closed(5, 16));

        Assert.Equal((LeaveVerdict.NotSafe, BeforeTheBell.MoveToHolding, true), (fry.Verdict, fry.Do, fry.Coming.NewFeeders));
        Assert.True(fry.ExpectedLoss > 30, $"{fry.ExpectedLoss}");
        Assert.True(At(ReadToday(JustSwimming)).ExpectedLoss < 2, "A weekend unfed costs them next to nothing.");
    }

    [Fact]
    public void A_swim_up_that_falls_into_the_holiday_is_seen_before_it()
    {
        var answer = At(ReadToday(TankStory.Alevins()).Closed(5, 16));

        Assert.InRange(answer.Coming.SwimUp, 0.3, 1);
        Assert.Equal(LeaveVerdict.NotSafe, answer.Verdict);
        Assert.True(answer.ExpectedLoss > At(ReadToday(TankStory.Eggs()).Closed(5, 16)).ExpectedLoss);
    }

    [Fact]
    public void The_chance_of_a_hatch_over_the_weekend_comes_from_the_forecast()
    {
        static double Chance(int daysOld) => At(ReadToday(TankStory.Eggs().Lot(l => l with
        {
            FertilisedFrom = TankStory.Wednesday.AddDays(-daysOld),
            FertilisedTo = TankStory.Wednesday.AddDays(-daysOld),
        }))).Coming.Hatch;

        Assert.True(Chance(10) < 0.01);
        Assert.InRange(Enumerable.Range(25, 20).Max(Chance), 0.2, 1);
    }

    [Theory]
    [InlineData(FlagKind.WarmingFast, BeforeTheBell.CoolAgain)]
    [InlineData(FlagKind.IcedCoil, BeforeTheBell.ThawCoil)]
    [InlineData(FlagKind.PumpFault, BeforeTheBell.FlowAgain)]
    [InlineData(FlagKind.DieOff, BeforeTheBell.SettleTrouble)]
    public void An_open_trouble_is_seen_to_first(FlagKind kind, BeforeTheBell act)
    {
        var seen = kind switch
        {
            FlagKind.WarmingFast => AllWell with { WaterC = 13 },
            FlagKind.IcedCoil => AllWell with { WaterC = 9.4, IceOnCoil = true },
            FlagKind.PumpFault => AllWell with { Moving = false },
            _ => AllWell with { DeadEggs = 30 },
        };

        var answer = At(ReadToday(TankStory.Eggs(), seen));

        Assert.Equal((LeaveVerdict.NotSafe, act), (answer.Verdict, answer.Do));
        Assert.Equal(kind, answer.Troubles[0].Kind);
        Assert.True(answer.ExpectedLoss > 10, $"{answer.ExpectedLoss}");
    }

    [Fact]
    public void The_act_is_worth_what_it_saves_and_no_more_than_is_lost()
    {
        foreach (var answer in new[] { At(SpringFish), At(ReadToday(TankStory.Eggs())), At(ReadToday(JustSwimming).Closed(5, 16)), At(TankStory.Eggs()) })
        {
            Assert.InRange(answer.SavedByDoing, 0, answer.ExpectedLoss);
        }
    }

    [Theory]
    [InlineData(10.5, BeforeTheBell.LowerSetPoint)]
    [InlineData(7.2, BeforeTheBell.AdultLooks)]
    public void Of_the_acts_that_make_a_tank_safe_the_one_that_asks_least_but_never_below_the_safe_band(double setPoint, BeforeTheBell act)
    {
        // So many eggs that the tank is just not safe: a step of the set point is enough where it may be taken.
        LeaveAnswer With(int fish) => At(ReadToday(
            Foam(TankStory.Eggs()).Fish(fish).Tank(t => t with { SetPointC = setPoint }).With(Limits.Leaving.PumpPart, 0), AllWell with { WaterC = setPoint }));
        var fish = Enumerable.Range(1, 400).Select(i => i * 5).First(n => With(n).Verdict == LeaveVerdict.NotSafe);

        Assert.Equal(act, With(fish).Do);
    }

    [Fact]
    public void An_empty_tank_is_not_asked_about()
    {
        Assert.Null(SafeToLeave.Judge(TankStory.Eggs().Fish(0).Record, TankStory.At(2, 13)));
        Assert.Null(SafeToLeave.Judge(TankStory.Eggs().Record with { Lot = null }, TankStory.At(2, 13)));
    }
}
