using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class AreaRulesTests
{
    private static Finding? Silent(TankStory tank, int day, int hour) => tank.Findings(day, hour).SingleOrDefault(f => f.Kind == FlagKind.Silent);

    /// <summary>Read well on the Friday before; without snow it is silent from the bell of Tuesday, day -1.</summary>
    private static TankStory ReadOnFriday() => TankStory.Eggs().Water(-5, 9, 10.5);

    private static AreaMark Answered(SweepAnswer answer, int day, int hour, DateTime? ended = null) =>
        new(SweepReason.Other, TankStory.At(-2, 8), null, ended, new SchoolWord(answer, TankStory.At(day, hour)));

    [Fact]
    public void A_snow_day_is_no_silence()
    {
        Assert.IsType<SilenceEvidence>(Silent(ReadOnFriday(), -1, 16)!.Evidence);
        Assert.Null(Silent(ReadOnFriday().Shut(-2, -2), -2, 16));
    }

    [Fact]
    public void Nobody_knows_after_the_usual_days_all_the_same_and_nobody_is_late()
    {
        var found = Silent(ReadOnFriday().Shut(-2, 0), -1, 16)!;
        var evidence = Assert.IsType<ShutEvidence>(found.Evidence);

        Assert.Equal((Urgency.ThisWeek, TankStory.At(-1, 15, 15)), (found.Urgency, found.StandsOn));
        Assert.Equal((SweepReason.Snow, 2, false), (evidence.Reason, evidence.Days, evidence.LastWasFlagged));
        Assert.Equal(Silent(ReadOnFriday(), -1, 16)!.Hazard, found.Hazard);
    }

    [Fact]
    public void After_a_bad_reading_one_shut_day_is_enough() =>
        Assert.Equal(Urgency.Today, Silent(TankStory.Eggs().Water(-5, 9, 13).Shut(-2, 0), -2, 16)!.Urgency);

    [Fact]
    public void A_planned_holiday_in_a_snowed_in_area_is_not_asked_for() =>
        Assert.Null(Silent(ReadOnFriday().Closed(-2, 0).Shut(-2, 0), 0, 16));

    [Fact]
    public void The_first_day_after_snow_beside_a_weekend_is_due_at_ten() =>
        Assert.Equal(4, Assert.IsType<SilenceEvidence>(Silent(ReadOnFriday().Shut(-2, -1), 0, 10)!.Evidence).AfterBreakDays);

    [Fact]
    public void All_well_breaks_a_silence_until_it_is_as_old_as_a_reading_would_be()
    {
        var well = ReadOnFriday().Marked(Answered(SweepAnswer.AllWell, -2, 12));

        Assert.Null(Silent(well, -1, 16));
        Assert.Equal(2, Assert.IsType<SilenceEvidence>(Silent(well, 0, 16)!.Evidence).MissedDays);
    }

    [Fact]
    public void All_well_does_not_take_back_what_was_measured() =>
        Assert.Contains(FlagKind.Warm, TankStory.Eggs().Water(-2, 9, 13).Marked(Answered(SweepAnswer.AllWell, -2, 12)).Findings(-2, 13).Select(f => f.Kind));

    [Fact]
    public void Trouble_asks_for_a_call_now_until_somebody_reads_the_tank()
    {
        var trouble = ReadOnFriday().Marked(Answered(SweepAnswer.Trouble, -2, 9));
        var found = Silent(trouble, -2, 10)!;

        Assert.Equal((Urgency.ActNow, TankStory.At(-2, 9), TankStory.At(-5, 9)),
            (found.Urgency, found.StandsOn, Assert.IsType<TroubleSaidEvidence>(found.Evidence).LastAt));
        Assert.NotNull(Silent(ReadOnFriday().Marked(Answered(SweepAnswer.Trouble, -2, 9, ended: TankStory.At(-2, 12))), -2, 13));
        Assert.Null(Silent(trouble.Water(-2, 11, 10.5), -2, 12));
    }

    [Fact]
    public void Nobody_there_is_no_word_on_the_tank() =>
        Assert.NotNull(Silent(ReadOnFriday().Marked(Answered(SweepAnswer.NobodyThere, -1, 12)), -1, 16));

    [Fact]
    public void An_adults_all_well_is_the_last_word_on_not_knowing_though_a_class_read_before()
    {
        var tank = TankStory.Eggs().Seen(-2, 9, new Observation { WaterC = 10.5 });

        Assert.True(LastWord.IsClass(FlagKind.Silent, tank.Record));
        Assert.False(LastWord.IsClass(FlagKind.Silent, tank.Marked(Answered(SweepAnswer.AllWell, -2, 12)).Record));
        Assert.True(LastWord.IsClass(FlagKind.Warm, tank.Record));
        Assert.True(LastWord.IsClass(FlagKind.Silent, tank.Seen(-2, 13, new Observation { WaterC = 10.5 }).Record));
    }

    /// <summary>The silence as it was flagged, once by a mark from six on; the class reads the water, and not whether it moves, at the hour given.</summary>
    private static FlagChange AfterTheMark(AreaMark mark, AreaMark[] later, int? classReadsAt)
    {
        var before = TankStory.Eggs().Seen(-2, 9, new Observation { WaterC = 10.5, Moving = true });
        var found = Silent(before.Marked(mark), 0, 9)!;
        var flag = new Flag
        {
            Kind = FlagKind.Silent,
            Urgency = Urgency.ActNow,
            StandsOn = found.StandsOn,
            Evidence = found.Evidence,
            Hazard = found.Hazard,
            RuleVersion = Assessment.RuleVersion,
        };
        var tank = TankStory.Eggs().Seen(-2, 9, new Observation { WaterC = 10.5, Moving = true });
        if (classReadsAt is { } hour)
        {
            tank.Seen(0, hour, new Observation { WaterC = 10.5 });
        }

        foreach (var m in later)
        {
            tank.Marked(m);
        }

        return Assert.Single(Reconcile.Compare(
            [.. tank.Findings(0, 13).Where(f => f.Kind == FlagKind.Silent)], [flag], [], f => LastWord.IsClass(f, tank.Record), TankStory.At(0, 13)));
    }

    private static readonly AreaMark Dark = new(SweepReason.PowerCut, TankStory.At(0, 6), null, null, null);

    [Theory]
    [InlineData(null)]
    [InlineData(12)]
    public void A_mark_taken_back_takes_its_silence_with_it_whoever_read_before_or_meanwhile(int? classReadsAt)
    {
        var snow = Dark with { Reason = SweepReason.Other, Word = new SchoolWord(SweepAnswer.PowerOff, TankStory.At(0, 7)) };
        var trouble = Dark with { Reason = SweepReason.Other, Word = new SchoolWord(SweepAnswer.Trouble, TankStory.At(0, 7)) };

        Assert.IsType<FlagChange.Clear>(AfterTheMark(Dark, [], classReadsAt));
        Assert.IsType<FlagChange.Clear>(AfterTheMark(Dark, [Dark with { EndedAt = Dark.From }], classReadsAt));
        Assert.IsType<FlagChange.Clear>(AfterTheMark(snow, [], classReadsAt));
        Assert.IsType<FlagChange.Clear>(AfterTheMark(trouble, [], classReadsAt));
    }

    [Fact]
    public void After_a_cut_that_was_one_only_a_class_says_that_all_is_well_so_an_adult_is_waited_for() =>
        Assert.IsType<FlagChange.AwaitAdult>(AfterTheMark(Dark, [Dark with { EndedAt = TankStory.At(0, 11) }], classReadsAt: 12));

    [Fact]
    public void A_class_that_read_before_a_silence_is_not_its_last_word()
    {
        var tank = TankStory.Eggs().Seen(-5, 9, new Observation { WaterC = 10.5 });
        var found = Silent(tank, -1, 16)!;
        var flag = new Flag
        {
            Kind = FlagKind.Silent,
            Urgency = Urgency.ActNow,
            StandsOn = found.StandsOn,
            Evidence = found.Evidence,
            Hazard = found.Hazard,
            RuleVersion = Assessment.RuleVersion,
        };

        Assert.False(LastWord.IsClass(flag, tank.Record));
        Assert.True(LastWord.IsClass(flag, tank.Seen(0, 9, new Observation { WaterC = 10.5 }).Record));
    }
}
