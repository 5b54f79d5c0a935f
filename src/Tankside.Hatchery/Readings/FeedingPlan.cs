using Tankside.Science.Eggs;
using Tankside.Science.Growth;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings;

/// <summary>What a tank's fry are expected to be like on a day, and the food for it.</summary>
/// <param name="Size">Likely mean length and weight of well-fed fish.</param>
/// <param name="Low">Of a tank that was fed little.</param>
/// <param name="High">At their best.</param>
/// <param name="PercentADay">Food by the handbook's chart, percent of body weight; null outside its temperatures.</param>
/// <param name="FoodGrams">For all the fish of the tank, g a day; null where there is no percentage.</param>
public sealed record FeedingDay(DateOnly Day, double WaterC, FishSize Size, FishSize Low, FishSize High, double? PercentADay, double? FoodGrams)
{
    /// <summary>Ammonia that the food becomes, mg N a day.</summary>
    public double? AmmoniaMgN => FoodGrams is { } grams ? FeedWaste.AmmoniaMgN(grams) : null;
}

/// <summary>Why feeding may become too much for a tank.</summary>
public enum FeedingWarning
{
    /// <summary>More fish than the tank has room for as fingerlings.</summary>
    TooManyForTheTank,

    /// <summary>Water changes alone would not hold the ammonia down: a ripe filter must.</summary>
    NeedsARipeFilter,

    /// <summary>Too cold for the fish to take food well, or for the chart to answer.</summary>
    TooColdToFeed,
}

/// <summary>What the plan holds the water against; a programme may set its own.</summary>
/// <param name="TooColdC">Colder than this fry hardly eat, °C.</param>
/// <param name="ChangeADay">The largest daily share of water that a class changes.</param>
/// <param name="MostAmmonia">Total ammonia, mg N/L, that a cold tank at a usual pH still bears.</param>
public sealed record FeedingLimits(double TooColdC, double ChangeADay, double MostAmmonia);

/// <summary>
/// Growth and food after swim-up, week by week. Sizes are of well-fed fish in water as read so far and at the dial from then on; the fish in
/// the tank are those of its ledger today.
/// </summary>
public sealed record FeedingPlan(DateOnly SwimUp, bool Seen, IReadOnlyList<FeedingDay> Weeks, IReadOnlyList<FeedingWarning> Warnings, double LevelsOffMgL)
{
    /// <summary>Weeks that are looked ahead.</summary>
    public const int Ahead = 8;

    /// <param name="swimUp">Half swimming up: seen, or expected.</param>
    /// <param name="days">The tank's days, ascending.</param>
    /// <param name="coming">Temperatures from today on, the last going on.</param>
    /// <param name="room">Fingerlings that the tank has room for.</param>
    /// <param name="limits">The programme's own, or the usual ones.</param>
    public static FeedingPlan Of(
        Species species, DateOnly today, DateOnly swimUp, bool seen, IReadOnlyList<TankDay> days, IReadOnlyList<Celsius> coming, int fish, double litres, int room, FeedingLimits limits)
    {
        var first = swimUp > today ? swimUp : today;
        var water = DailyWater.Of(swimUp, today, days, coming[0].Degrees);
        var warmth = water.Sum(d => Math.Max(0, d.Mean.Degrees));
        double On(DateOnly day) => coming[Math.Clamp(day.DayNumber - today.DayNumber, 0, coming.Count - 1)].Degrees;

        var weeks = new List<FeedingDay>();
        for (var day = first; weeks.Count < Ahead; day = day.AddDays(7))
        {
            weeks.Add(Reckon(species, day, On(day), warmth, fish, limits.TooColdC));
            for (var i = 0; i < 7; i++)
            {
                warmth += Math.Max(0, On(day.AddDays(i)));
            }
        }

        // By then the class has a month of feeding behind it: the day that the tank has to bear.
        var heaviest = weeks.Take(5).Max(w => w.AmmoniaMgN ?? 0);
        var level = FeedWaste.SteadyPeak(heaviest / litres, limits.ChangeADay);
        return new FeedingPlan(swimUp, seen, weeks, [.. Warn(fish, room, level > limits.MostAmmonia, weeks)], level);
    }

    private static FeedingDay Reckon(Species species, DateOnly day, double waterC, double warmth, int fish, double tooColdC)
    {
        var (cm, low, high) = LengthGrowth.After(species, warmth);
        var size = ConditionFactor.SizeAt(species, cm);
        var percent = waterC < tooColdC ? null : FeedChart.PercentADay(new Celsius(waterC), cm);
        return new FeedingDay(
            day, waterC, size, ConditionFactor.SizeAt(species, low), ConditionFactor.SizeAt(species, high), percent, percent / 100 * size.Grams * fish);
    }

    private static IEnumerable<FeedingWarning> Warn(int fish, int room, bool needsFilter, List<FeedingDay> weeks)
    {
        if (fish > room)
        {
            yield return FeedingWarning.TooManyForTheTank;
        }

        if (needsFilter)
        {
            yield return FeedingWarning.NeedsARipeFilter;
        }

        if (weeks[0].PercentADay is null)
        {
            yield return FeedingWarning.TooColdToFeed;
        }
    }
}
