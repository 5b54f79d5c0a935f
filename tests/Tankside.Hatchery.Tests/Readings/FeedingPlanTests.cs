using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Readings;

public class FeedingPlanTests
{
    private static readonly DateOnly Today = new(2027, 3, 1);

    private static FeedingPlan Plan(int swimUpDaysAgo = 0, int fish = 100, double waterC = 10, double litres = 208, int room = 110, LimitSet? limits = null) => FeedingPlan.Of(
        Species.RainbowTrout, Today, Today.AddDays(-swimUpDaysAgo), true,
        [.. Enumerable.Range(0, Math.Max(0, swimUpDaysAgo)).Select(i => new TankDay { Day = Today.AddDays(i - swimUpDaysAgo), MeanC = waterC })],
        [new Celsius(waterC)], fish, litres, room, Limits.Season.FeedingOf(limits ?? LimitSet.Defaults));

    [Fact]
    public void At_swim_up_fry_are_an_inch_and_get_what_the_chart_says()
    {
        var first = Plan().Weeks[0];

        // Leitritz and Lewis 1980: under one inch at 50 °F 5.2% of body weight a day; 4055e-7 lb/in³ at 2.5 cm is 0.175 g.
        Assert.Equal(2.5, first.Size.LengthCm, 9);
        Assert.Equal(5.2, first.PercentADay);
        Assert.Equal(0.1754, first.Size.Grams, 4);
        Assert.Equal(0.052 * 0.1754 * 100, first.FoodGrams!.Value, 2);
        Assert.Equal(first.FoodGrams.Value * 0.5 * 0.092 * 1000, first.AmmoniaMgN!.Value, 6);
    }

    [Fact]
    public void Warmth_that_was_read_since_swim_up_makes_them_longer_today()
    {
        // 7.1 °C-months of 30.4 days a centimetre (Dwyer): 30 days at 10 °C are 1.39 cm.
        Assert.Equal(2.5 + (300 / 30.4 / 7.1), Plan(swimUpDaysAgo: 30).Weeks[0].Size.LengthCm, 6);
        Assert.Equal(Today, Plan(swimUpDaysAgo: 30).Weeks[0].Day);
    }

    [Fact]
    public void Weeks_to_come_go_by_the_dial_and_grow_within_their_bounds()
    {
        var weeks = Plan().Weeks;

        Assert.Equal(FeedingPlan.Ahead, weeks.Count);
        Assert.Equal(2.5 + (70 * 7 / 30.4 / 7.1), weeks[7].Size.LengthCm, 6);
        Assert.All(weeks.Skip(1), w => Assert.True(w.Low.Grams < w.Size.Grams && w.Size.Grams < w.High.Grams));
        Assert.Equal(Today.AddDays(49), weeks[7].Day);
    }

    [Fact]
    public void Swim_up_still_to_come_begins_the_weeks_on_its_day() => Assert.Equal(Today.AddDays(12), Plan(swimUpDaysAgo: -12).Weeks[0].Day);

    [Fact]
    public void A_tank_is_warned_of_too_many_fish_of_ammonia_and_of_cold()
    {
        Assert.Empty(Plan(fish: 10).Warnings);
        Assert.Contains(FeedingWarning.TooManyForTheTank, Plan(fish: 200).Warnings);
        Assert.Contains(FeedingWarning.NeedsARipeFilter, Plan(fish: 200, litres: 38).Warnings);
        Assert.Equal([FeedingWarning.TooColdToFeed], Plan(fish: 10, waterC: 4).Warnings);
        Assert.Null(Plan(waterC: 4).Weeks[0].FoodGrams);
    }

    [Fact]
    public void A_programmes_own_numbers_decide_what_is_too_cold_and_too_much()
    {
        LimitSet own = new(new Dictionary<string, double> { [Limits.Season.FeedColdest.Key] = 3, [Limits.Season.FeedAmmonia.Key] = 0.01, [Limits.Season.FeedChange.Key] = 0.5 });

        Assert.Equal([FeedingWarning.NeedsARipeFilter], Plan(fish: 10, waterC: 4, limits: own).Warnings);
        Assert.True(Plan(limits: own).LevelsOffMgL < Plan().LevelsOffMgL / 3);
    }
}
