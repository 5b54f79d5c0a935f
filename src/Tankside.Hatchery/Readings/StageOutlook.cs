using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings;

/// <summary>What the date of a stage ahead is made of, with the water still to come left open.</summary>
/// <param name="SoFar">All that is known at the start of today; its future is empty.</param>
/// <param name="InRange">Whether all the water so far lay inside the range of the model's source.</param>
/// <param name="Learned">Whether hatches were seen in the lot: they tell the model's error, in range or out of it.</param>
public sealed record StageOutlook(ForecastInput SoFar, bool InRange, bool Learned)
{
    public StageModel Model => SoFar.Model;

    /// <summary>The date in water that takes this course, the last temperature going on. One day or more.</summary>
    /// <returns>The forecast, and whether the water up to the stage lies inside the range of the model's source.</returns>
    public (DevelopmentForecast Forecast, bool InRange) In(IReadOnlyList<Celsius> coming)
    {
        var inRange = InRange && DaysUntil(coming) is { } days
            && coming.Take(Math.Max(1, (int)Math.Ceiling(days))).All(Model.InRange);
        return (Development.Forecast(SoFar with { Future = coming, OutsideRange = !Learned && !inRange }), inRange);
    }

    private double? DaysUntil(IReadOnlyList<Celsius> coming) => Development.DaysUntil(Model, SoFar.FractionSoFar, coming);
}
