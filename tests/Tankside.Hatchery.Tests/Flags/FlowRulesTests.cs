using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class FlowRulesTests
{
    private static readonly Observation Still = new() { Moving = false };

    private static readonly Observation NoBubbles = new() { Bubbles = false };

    private static Finding? Pump(TankStory tank) => FlowRules.PumpReportedStopped(tank.Situation());

    private static double HoursLeft(Finding? found) => found!.Hazard.HoursLeft!.Value.Mid;

    /// <summary>The same fry, swimming since so many days.</summary>
    private static TankStory SwimmingSince(int days) =>
        TankStory.Fry().Lot(l => l with
        {
            FertilisedFrom = TankStory.Wednesday.AddDays(-60 - days),
            FertilisedTo = TankStory.Wednesday.AddDays(-60 - days),
            DeliveredOn = TankStory.Wednesday.AddDays(-40 - days),
        });

    [Theory]
    [InlineData(LifeStage.Egg)]
    [InlineData(LifeStage.Alevin)]
    public void Heaped_eggs_and_alevins_have_hours_in_still_water_not_days(LifeStage stage)
    {
        var found = Pump(TankStory.Of(stage).Seen(0, 9, Still))!;
        var hours = found.Hazard.HoursLeft!.Value;

        Assert.Equal((FlagKind.PumpFault, Urgency.ActNow, TankStory.At(0, 9)), (found.Kind, found.Urgency, found.StandsOn));
        Assert.Equal((1.0, 6.0, 24.0), (hours.Low, hours.Mid, hours.High));
        Assert.Equal(0.8, found.Hazard.ShareLost);
    }

    [Fact]
    public void Alevins_crowded_so_that_the_whole_tank_fails_sooner_have_the_tanks_time() =>
        Assert.InRange(HoursLeft(Pump(TankStory.Alevins().Fish(20_000).Tank(t => t with { Litres = 38 }).Seen(0, 9, Still))), 0.1, 2);

    [Fact]
    public void Heavy_fry_in_spring_have_hours_and_small_fry_in_winter_more_of_them()
    {
        var winter = Pump(SwimmingSince(5).Seen(0, 9, Still));
        var spring = Pump(SwimmingSince(120).Seen(0, 9, Still));

        Assert.InRange(HoursLeft(spring), 1, 6);
        Assert.True(HoursLeft(spring) < HoursLeft(winter) / 3, $"{HoursLeft(spring)} h in spring, {HoursLeft(winter)} h in winter");
    }

    [Fact]
    public void More_fish_have_less_time() =>
        Assert.True(HoursLeft(Pump(SwimmingSince(120).Fish(400).Seen(0, 9, Still))) < HoursLeft(Pump(SwimmingSince(120).Seen(0, 9, Still))));

    [Fact]
    public void No_bubbles_over_few_eggs_is_for_today_and_over_many_heavy_fry_for_now()
    {
        Assert.Equal(Urgency.Today, Pump(TankStory.Eggs().Seen(0, 9, NoBubbles))!.Urgency);
        Assert.Equal(Urgency.ActNow, Pump(SwimmingSince(120).Seen(0, 9, NoBubbles))!.Urgency);
    }

    [Fact]
    public void Missing_bubbles_lose_fewer_than_still_water()
    {
        var found = Pump(SwimmingSince(120).Seen(0, 9, NoBubbles))!;
        var evidence = Assert.IsType<FlowEvidence>(found.Evidence);

        Assert.Equal(0.4, found.Hazard.ShareLost);
        Assert.Equal((false, true, false, 200), (evidence.StillWater, evidence.NoBubbles, evidence.AllStopped, evidence.Fish));
    }

    [Fact]
    public void All_stopped_together_is_told()
    {
        var found = Pump(TankStory.Eggs().Seen(0, 9, new Observation { Moving = false, Bubbles = false, ChillerRunning = false }))!;

        Assert.True(Assert.IsType<FlowEvidence>(found.Evidence).AllStopped);
    }

    [Fact]
    public void The_newest_word_on_each_counts()
    {
        Assert.Null(Pump(TankStory.Eggs().Seen(0, 9, Still).Seen(0, 10, new Observation { Moving = true })));
        Assert.NotNull(Pump(TankStory.Eggs().Seen(0, 9, Still).Seen(0, 10, new Observation { Bubbles = true })));
        Assert.NotNull(Pump(TankStory.Eggs().Seen(0, 9, Still).Water(0, 10, 10.5)));
        Assert.Null(Pump(TankStory.Eggs().Seen(0, 9, new Observation { Moving = true, Bubbles = true })));
        Assert.Null(Pump(TankStory.Eggs()));
    }
}
