using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Tests.Flags;

public class SeasonRulesTests
{
    private static readonly DateOnly Delivery = new(2026, 11, 4);

    private static int Day(int month, int day, int year = 2026) => new DateOnly(year, month, day).DayNumber - TankStory.Wednesday.DayNumber;

    /// <summary>Read daily at 10.5 °C since its delivery five days ago.</summary>
    private static TankStory ReadUpTo(int day)
    {
        var tank = TankStory.Eggs();
        for (var d = -5; d <= day; d++)
        {
            tank.Water(d, 9, 10.5);
        }

        return tank;
    }

    /// <summary>Eggs in class since early November; school shuts for two weeks from Saturday 19 December.</summary>
    private static TankStory Autumn(int fertilisedDaysAgo)
    {
        var tank = TankStory.Eggs().Closed(Day(12, 19), Day(1, 1, 2027)).Closed(Day(11, 26), Day(11, 27))
            .Lot(l => l with { FertilisedFrom = Delivery.AddDays(-fertilisedDaysAgo), FertilisedTo = Delivery.AddDays(-fertilisedDaysAgo), DeliveredOn = Delivery });
        for (var day = Day(11, 4); day <= Day(11, 16); day++)
        {
            tank.Water(day, 9, 10.5);
        }

        return tank;
    }

    private static Finding? Feeding(TankStory tank, int month = 11, int day = 17) => FeedingRules.SwimUpNearBreak(tank.Situation(Day(month, day)));

    [Fact]
    public void A_hatch_is_early_two_days_before_the_start_of_its_interval_and_not_one_day()
    {
        var start = ReadUpTo(0).Situation().Development.Hatch!.Low95.DayNumber - TankStory.Wednesday.DayNumber;
        Finding? HatchOn(int day) =>
            EarlyHatchRules.HatchBeforeItsTime(ReadUpTo(day - 1).Seen(day, 9, new Observation { Hatched = Share.Some }).Situation(day, 12));

        Assert.InRange(start, 3, 20);
        Assert.Null(HatchOn(start));
        var found = HatchOn(1)!;
        Assert.Equal((FlagKind.EarlyHatch, Urgency.ThisWeek, TankStory.At(1, 9)), (found.Kind, found.Urgency, found.StandsOn));
        Assert.Equal(TankStory.Wednesday.AddDays(1), Assert.IsType<EarlyHatchEvidence>(found.Evidence).SeenOn);
    }

    [Fact]
    public void An_early_hatch_stays_the_same_the_days_after_and_is_told_for_two_weeks()
    {
        var tank = ReadUpTo(0).Seen(1, 9, new Observation { Hatched = Share.Some }).Water(5, 9, 10.5);
        var first = EarlyHatchRules.HatchBeforeItsTime(tank.Situation(1))!;

        Assert.Equal(first.StandsOn, EarlyHatchRules.HatchBeforeItsTime(tank.Situation(6))!.StandsOn);
        Assert.Null(EarlyHatchRules.HatchBeforeItsTime(tank.Situation(16)));
    }

    [Fact]
    public void A_hatch_in_time_stays_in_time_however_long_ago()
    {
        var mid = ReadUpTo(0).Situation().Development.Hatch!.Mid.DayNumber - TankStory.Wednesday.DayNumber;
        var tank = ReadUpTo(mid - 1).Seen(mid, 9, new Observation { Hatched = Share.Some });

        Assert.All(Enumerable.Range(mid, 8), day => Assert.Null(EarlyHatchRules.HatchBeforeItsTime(tank.Situation(day))));
    }

    [Fact]
    public void Swim_up_days_before_two_weeks_of_holiday_is_told_in_November()
    {
        var found = Feeding(Autumn(fertilisedDaysAgo: 12))!;
        var evidence = Assert.IsType<FeedingEvidence>(found.Evidence);

        Assert.Equal((FlagKind.FeedingNearBreak, Urgency.ThisWeek), (found.Kind, found.Urgency));
        Assert.Equal((new DateOnly(2026, 12, 19), new DateOnly(2027, 1, 3)), (evidence.BreakFirst, evidence.BreakLast));
        Assert.Equal(new DateOnly(2026, 12, 7), evidence.From);
        Assert.InRange(evidence.Mid, new DateOnly(2026, 12, 7), new DateOnly(2027, 1, 3));
        Assert.InRange(evidence.Chance, 0.7, 1);
        Assert.InRange(found.Hazard.ShareLost, 0.65, 0.95);
    }

    [Fact]
    public void It_is_for_today_when_the_break_is_near_and_gone_when_it_is_over()
    {
        var tank = Autumn(fertilisedDaysAgo: 12);

        Assert.Equal(Urgency.ThisWeek, Feeding(tank, 12, 4)!.Urgency);
        Assert.Equal(Urgency.Today, Feeding(tank, 12, 5)!.Urgency);
        Assert.Null(FeedingRules.SwimUpNearBreak(tank.Situation(Day(1, 4, 2027))));
    }

    [Fact]
    public void Swim_up_long_before_the_break_is_not_told() =>
        Assert.Null(Feeding(Autumn(fertilisedDaysAgo: 12).Tank(t => t with { SetPointC = 14 })));

    [Fact]
    public void A_weekend_is_no_break()
    {
        var tank = TankStory.Eggs().Lot(l => l with { FertilisedFrom = Delivery.AddDays(-12), FertilisedTo = Delivery.AddDays(-12), DeliveredOn = Delivery });

        Assert.Null(Feeding(tank.Water(Day(11, 16), 9, 10.5)));
    }

    [Theory]
    [InlineData(12, 4, false)]
    [InlineData(12, 7, true)]
    [InlineData(12, 18, true)]
    public void A_swim_up_that_was_seen_is_near_or_it_is_not(int month, int day, bool near)
    {
        var tank = Autumn(fertilisedDaysAgo: 12).Seen(Day(month, day), 9, new Observation { Swimming = Share.Half });
        var found = FeedingRules.SwimUpNearBreak(tank.Situation(Day(12, 18), 15));

        Assert.Equal(near, found is not null);
        Assert.Equal(near ? 1 : 0, (found?.Evidence as FeedingEvidence)?.Chance ?? 0);
    }

    [Fact]
    public void The_same_break_is_not_told_twice_and_another_is()
    {
        var tank = Autumn(fertilisedDaysAgo: 12);

        Assert.Equal(Feeding(tank)!.StandsOn, Feeding(tank, 12, 10)!.StandsOn);
        Assert.Equal(TankStory.At(Day(12, 19), 0), Feeding(tank)!.StandsOn);
    }

    /// <summary>A tank without eggs, which are due on a day after the Wednesday.</summary>
    private static Finding? Readiness(TankStory tank, int dueIn, int day = 0) => Assessment.Assess(
        tank.Record with { Lot = null, Fish = 0, Expected = new EggsExpected(TankStory.Wednesday.AddDays(dueIn), 200) }, TankStory.At(day, 12)).SingleOrDefault();

    private static Unready? Why(Finding? found) => (found?.Evidence as ReadinessEvidence)?.Why;

    [Fact]
    public void A_tank_is_not_ready_when_unread_off_or_cold_too_late()
    {
        Assert.Equal(Unready.Unread, Why(Readiness(TankStory.Eggs(), 3)));
        Assert.Equal(Unready.Unread, Why(Readiness(TankStory.Eggs().Water(-4, 9, 10.5), 3)));
        Assert.Equal(Unready.OffSetPoint, Why(Readiness(TankStory.Eggs().Water(-1, 9, 10.5).Water(0, 9, 11.7), 3)));
        Assert.Equal(Unready.OffSetPoint, Why(Readiness(TankStory.Eggs().Water(0, 9, 9.3), 3)));
        Assert.Equal(Unready.NotProved, Why(Readiness(TankStory.Eggs().Water(-1, 9, 15).Water(0, 9, 10.5), 2)));
    }

    [Fact]
    public void A_tank_that_was_cold_for_three_days_by_then_is_ready()
    {
        Assert.Null(Readiness(TankStory.Eggs().Water(0, 9, 11.6), 3));
        Assert.Null(Readiness(TankStory.Eggs().Water(-2, 9, 10.5).Water(0, 9, 9.4), 1));
    }

    [Fact]
    public void Readiness_is_asked_three_days_ahead_to_the_day_itself()
    {
        Assert.Null(Readiness(TankStory.Eggs(), 4));
        Assert.NotNull(Readiness(TankStory.Eggs(), 0));
        Assert.Null(Readiness(TankStory.Eggs(), -1));
    }

    [Fact]
    public void No_fish_is_lost_by_a_tank_that_is_not_ready_and_time_runs_to_the_delivery()
    {
        var found = Readiness(TankStory.Eggs(), 2)!;

        Assert.Equal(0, found.Hazard.LostBy(TankStory.At(30, 0)));
        Assert.Equal(44, found.Hazard.HoursLeftAt(TankStory.At(0, 12))!.Value.Low, 6);
    }

    [Fact]
    public void A_tank_with_fish_is_not_asked_for_readiness() => Assert.DoesNotContain(
        Assessment.Assess(ReadUpTo(0).Record with { Expected = new EggsExpected(TankStory.Wednesday, 100) }, TankStory.At(0, 12)), f => f.Kind == FlagKind.NotReady);

    private static Finding? Tally(int received, int unaccounted, bool counted = false, bool closed = false) => TallyRules.DoesNotBalance(ReadUpTo(0).Record with
    {
        Ledger = new LedgerStand(
            new TankBalance { Received = received, Unaccounted = unaccounted }, counted ? TankStory.At(-1, 9) : null, closed ? TankStory.At(0, 9) : null, TankStory.At(0, 9)),
    }, TankStory.At(0, 12));

    [Theory]
    [InlineData(30, true, false, false)]
    [InlineData(31, true, false, true)]
    [InlineData(31, false, true, true)]
    [InlineData(31, false, false, false)]
    [InlineData(-1, false, false, true)]
    [InlineData(0, true, true, false)]
    public void An_account_is_told_when_more_is_missing_than_counting_errs_by_or_more_left_than_came(int unaccounted, bool counted, bool closed, bool told) =>
        Assert.Equal(told, Tally(200, unaccounted, counted, closed) is not null);

    [Fact]
    public void An_account_kills_nothing()
    {
        var found = Tally(200, 80, counted: true)!;

        Assert.Equal((FlagKind.Tally, Urgency.ThisWeek, 0.0, Danger.None), (found.Kind, found.Urgency, found.Hazard.ShareLost, Dangers.Of(found.Kind)));
    }

    [Theory]
    [InlineData(LifeStage.Egg)]
    [InlineData(LifeStage.Alevin)]
    [InlineData(LifeStage.Fry)]
    public void An_account_is_told_for_what_is_in_the_tank_by_now(LifeStage stage)
    {
        var ledger = new LedgerStand(new TankBalance { Received = 200, Unaccounted = 80 }, TankStory.At(-1, 9), null, TankStory.At(0, 9));
        var record = TankStory.Of(stage).Record with { Ledger = ledger };

        Assert.Equal(stage, TallyRules.DoesNotBalance(record, TankStory.At(0, 12))!.Evidence.Stage);
        Assert.Equal(LifeStage.Egg, TallyRules.DoesNotBalance(record with { Lot = null }, TankStory.At(0, 12))!.Evidence.Stage);
    }

    [Theory]
    [InlineData(null, LifeStage.Fry)]
    [InlineData(Share.None, LifeStage.Egg)]
    [InlineData(Share.All, LifeStage.Alevin)]
    public void What_was_released_were_fry_unless_somebody_had_said_otherwise(Share? hatched, LifeStage stage)
    {
        var tank = hatched is { } share ? ReadUpTo(0).Seen(-13, 9, new Observation { Hatched = share }) : ReadUpTo(0);
        var record = tank.Seen(0, 9, new Observation { Swimming = Share.All }).Record with { Unreported = new UnreportedRelease(TankStory.At(-12, 12), 87, "P-7") };

        Assert.Equal(stage, ReportRules.NotSent(record, TankStory.At(0, 12))!.Evidence.Stage);
    }

    [Fact]
    public void The_account_of_a_closed_tank_is_judged_too()
    {
        var record = ReadUpTo(0).Record with
        {
            Fish = 0,
            Ledger = new LedgerStand(new TankBalance { Received = 200, Unaccounted = 200 }, null, TankStory.At(0, 9), TankStory.At(0, 9)),
        };

        Assert.Equal(FlagKind.Tally, Assert.Single(Assessment.Assess(record, TankStory.At(0, 12))).Kind);
    }

    [Theory]
    [InlineData(-10, false)]
    [InlineData(-11, true)]
    public void A_release_is_late_when_the_last_day_of_its_report_is_over_also_in_a_closed_tank(int released, bool late)
    {
        var record = ReadUpTo(0).Record with { Fish = 0, Unreported = new UnreportedRelease(TankStory.At(released, 12), 87, "P-7") };

        var found = Assessment.Assess(record, TankStory.At(0, 0)).SingleOrDefault();

        Assert.Equal(
            late ? new ReportEvidence(LifeStage.Fry, TankStory.Wednesday.AddDays(released), TankStory.Wednesday.AddDays(-1), 87, "P-7") : null, found?.Evidence);
        Assert.Equal(late ? (FlagKind.ReportLate, 0.0) : default, (found?.Kind ?? default, found?.Hazard.ShareLost ?? 0));
    }
}
