using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>A storm takes the power of the area at 17:30 on a Friday; day 2 of the story.</summary>
public class PowerCutRulesTests
{
    private static readonly DateTime Cut = TankStory.At(2, 17, 30);

    private static AreaMark Mark(SchoolWord? word = null, DateTime? until = null, DateTime? ended = null) => new(SweepReason.PowerCut, Cut, until, ended, word);

    /// <summary>110 fish that have eaten since the middle of January: a hand long in May.</summary>
    private static TankStory BigFish() => TankStory.Fry().Fish(110)
        .Lot(l => l with { FertilisedFrom = l.FertilisedFrom.AddDays(-140), FertilisedTo = l.FertilisedTo.AddDays(-140), DeliveredOn = l.DeliveredOn.AddDays(-140) })
        .Seen(-180, 9, new Observation { WaterC = 10.5, Hatched = Share.All })
        .Seen(-154, 9, new Observation { WaterC = 10.5, Swimming = Share.All })
        .Seen(2, 14.75, new Observation { WaterC = 11.1, Moving = true });

    private static TankStory Eggs() => TankStory.Eggs().Seen(2, 14.75, new Observation { WaterC = 10.5, Moving = true });

    private static Finding? Unseen(TankStory tank, int hour = 17, int minute = 40, int day = 2) =>
        tank.Findings(day, hour, minute).SingleOrDefault(f => f.Kind == FlagKind.Silent);

    private static PowerCutEvidence Evidence(Finding? finding) => Assert.IsType<PowerCutEvidence>(finding?.Evidence);

    private static TroubledTank<string> Judged(string code, TankStory tank)
    {
        var (record, now) = (tank.Record, TankStory.At(2, 17, 40));
        return new TroubledTank<string>(record.Tank with { Code = code }, record.Fish, record.Calendar, [.. Assessment.Assess(record, now).Select(f => (code, f))]);
    }

    [Fact]
    public void Big_fish_are_flagged_at_once_with_a_clock_of_a_few_hours()
    {
        var found = Unseen(BigFish().Marked(Mark()))!;
        var evidence = Evidence(found);

        Assert.Equal((Urgency.ActNow, Cut, LifeStage.Fry), (found.Urgency, found.StandsOn, evidence.Stage));
        Assert.Equal((Cut, null, TankStory.At(2, 14, 45), 11.1, true, 110), (evidence.Since, evidence.BackAt, evidence.LastAt, evidence.LastWaterC, evidence.LastMoving, evidence.Fish));
        Assert.True(evidence.AirFirst);
        Assert.InRange((evidence.PassesAt!.Low - Cut).TotalHours, 1, 4);
        Assert.InRange((evidence.PassesAt.Mid - Cut).TotalHours, 2, 8);
        Assert.True(evidence.HeatPassesAt!.Mid > evidence.PassesAt.High);
        Assert.Equal(evidence.PassesAt.Mid, Cut.AddHours(found.Hazard.HoursLeft!.Value.Mid));
    }

    [Fact]
    public void Big_fish_come_before_eggs_alevins_and_a_warm_tank()
    {
        var warm = TankStory.Eggs().Fish(300).Water(0, 9, 12.3).Water(1, 9, 12.3).Water(2, 9, 12.3);
        var calls = MorningRound.Order(
            [
                Judged("EGGS", Eggs().Marked(Mark())), Judged("ALEVINS", TankStory.Alevins().Seen(2, 14, new Observation { WaterC = 10.5 }).Marked(Mark())),
                Judged("WARM", warm), Judged("BIG", BigFish().Marked(Mark())),
            ],
            TankStory.At(2, 17, 40));

        Assert.Equal("BIG", calls[0].Tank.Code);
        Assert.True(calls[0].ExpectedLoss > 1.5 * calls[1].ExpectedLoss, string.Join(", ", calls.Select(c => $"{c.Tank.Code} {c.ExpectedLoss:0.0}")));
    }

    [Fact]
    public void Eggs_in_winter_are_asked_for_too_but_low()
    {
        var found = Unseen(Eggs().Marked(Mark()))!;

        Assert.NotEqual(Urgency.ActNow, found.Urgency);
        Assert.False(Evidence(found).AirFirst);
        Assert.Equal(0.1, Evidence(found).ChanceOff);
        Assert.InRange(found.Hazard.ShareLost, 0.01, 0.1);
    }

    [Fact]
    public void Eggs_in_a_cold_room_have_no_clock_at_all()
    {
        var evidence = Evidence(Unseen(Eggs().Tank(t => t with { RoomC = 13 }).Marked(Mark())));

        Assert.Null(evidence.AirPassesAt);
        Assert.Null(evidence.HeatPassesAt);
    }

    [Fact]
    public void A_cut_that_goes_on_makes_the_loss_likelier_and_eggs_more_urgent()
    {
        var eggs = Eggs().Marked(Mark());

        Assert.True(Evidence(Unseen(eggs, 12, 0, 3)).ChanceOff > Evidence(Unseen(eggs)).ChanceOff);
        Assert.Equal(Urgency.ActNow, Unseen(eggs, 12, 0, 3)!.Urgency);
    }

    [Fact]
    public void A_cut_that_is_to_end_soon_weighs_less() =>
        Assert.True(Unseen(BigFish().Marked(Mark(until: Cut.AddHours(1))))!.Hazard.ShareLost < Unseen(BigFish().Marked(Mark()))!.Hazard.ShareLost / 2);

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Water_seen_to_move_or_to_stand_takes_the_tank_out(bool moving)
    {
        var seen = BigFish().Marked(Mark()).Seen(2, 18, new Observation { Moving = moving });

        Assert.Null(Unseen(seen, 18, 10));
        Assert.Equal(moving, seen.Findings(2, 18, 10).All(f => f.Kind != FlagKind.PumpFault));
    }

    [Fact]
    public void A_temperature_alone_says_nothing_of_the_air_but_is_counted_from()
    {
        var evidence = Evidence(Unseen(BigFish().Marked(Mark()).Water(2, 19, 13), 19, 10));

        Assert.Equal((13, TankStory.At(2, 19)), (evidence.LastWaterC, evidence.LastAt));
        Assert.True(evidence.HeatPassesAt!.Low > TankStory.At(2, 19));
    }

    [Fact]
    public void All_well_takes_the_tank_out_and_power_off_or_trouble_bring_it_up()
    {
        Assert.Null(Unseen(Eggs().Marked(Mark(new SchoolWord(SweepAnswer.AllWell, Cut.AddMinutes(20)))), 18, 0));
        Assert.NotNull(Unseen(Eggs().Marked(Mark(new SchoolWord(SweepAnswer.NobodyThere, Cut.AddMinutes(20)))), 18, 0));

        var off = Unseen(Eggs().Marked(Mark(new SchoolWord(SweepAnswer.PowerOff, Cut.AddMinutes(20)))), 18, 0)!;
        Assert.Equal((Urgency.Today, Cut.AddMinutes(20)), (off.Urgency, off.StandsOn));
        Assert.Equal(Urgency.ActNow, Unseen(Eggs().Marked(Mark(new SchoolWord(SweepAnswer.Trouble, Cut.AddMinutes(20)))), 18, 0)!.Urgency);
    }

    [Fact]
    public void A_look_before_the_power_went_is_no_news_after_the_word_that_it_is_off()
    {
        var off = new SchoolWord(SweepAnswer.PowerOff, Cut.AddHours(2));

        Assert.NotNull(Unseen(BigFish().Marked(Mark(off)).Seen(2, 18, new Observation { Moving = true }), 20));
        Assert.Null(Unseen(BigFish().Marked(Mark(off)).Seen(2, 19.75, new Observation { Moving = true }), 20));
    }

    [Fact]
    public void With_the_power_back_whoever_was_not_seen_is_asked_for_until_the_next_reading()
    {
        var back = Eggs().Marked(Mark(ended: Cut.AddHours(2)));
        var found = Unseen(back, 20)!;

        Assert.Equal((Urgency.Today, Cut.AddHours(2), null), (found.Urgency, Evidence(found).BackAt, found.Hazard.HoursLeft));
        Assert.Null(Unseen(back.Water(2, 20.5, 11), 21));
        Assert.Equal(Urgency.ActNow, Unseen(BigFish().Marked(Mark(ended: Cut.AddHours(8))), 2, 0, 3)!.Urgency);
    }

    [Fact]
    public void No_power_in_an_area_shut_by_snow_is_a_power_cut_of_that_school()
    {
        var snow = Eggs().Marked(new AreaMark(SweepReason.Snow, TankStory.At(2, 6), null, null, new SchoolWord(SweepAnswer.PowerOff, TankStory.At(2, 16))));

        Assert.Equal(TankStory.At(2, 16), Evidence(Unseen(snow)).Since);
    }

    [Fact]
    public void Eggs_that_came_after_the_cut_and_a_mark_taken_back_are_let_be()
    {
        Assert.Null(Unseen(TankStory.Eggs().Lot(l => l with { DeliveredOn = TankStory.Wednesday.AddDays(3) }).Marked(Mark()), 9, 0, 3));
        Assert.Null(Unseen(Eggs().Marked(Mark(ended: Cut))));
    }

    [Fact]
    public void The_hours_that_bands_are_made_of_are_the_programmes_own()
    {
        var calm = Unseen(BigFish().Marked(Mark()).With(Limits.PowerLasts, 1))!;

        Assert.True(calm.Hazard.ShareLost < Unseen(BigFish().Marked(Mark()))!.Hazard.ShareLost);
        Assert.Equal(new Band(calm.Hazard.HoursLeft!.Value.Low, calm.Hazard.HoursLeft.Value.Mid, calm.Hazard.HoursLeft.Value.High), Unseen(BigFish().Marked(Mark()))!.Hazard.HoursLeft);
    }
}
