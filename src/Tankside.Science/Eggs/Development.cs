using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>
/// Development in water whose temperature changes: each day adds 1 / D(T) of the way, and the stage comes when the sum is one.
/// </summary>
/// <remarks>
/// Symbols: D(T) days from fertilisation to the stage at a constant T °C; f the fraction done. The rate-summation rule is
/// common practice in hatcheries and assumes that yesterday's temperature leaves no trace in today's rate; Steel and others 2012
/// (Ecosphere 3:104, abstract seen) show that for chinook this is not quite so.
/// </remarks>
public static class Development
{
    /// <summary>How much wider (x) the model's error is taken outside the range of its source. No source: chosen here.</summary>
    public const double OutsideRangeFactor = 2;

    /// <summary>
    /// The fraction done after these days: the sum of <see cref="StageModel.RateAt"/>. 0 for no days; may pass 1.
    /// </summary>
    /// <param name="model">The rule for the stage.</param>
    /// <param name="dailyMeans">Mean water temperature of each day since fertilisation, °C.</param>
    public static double Fraction(StageModel model, IEnumerable<Celsius> dailyMeans) => dailyMeans.Sum(model.RateAt);

    /// <summary>
    /// Days from now until the fraction is one, with the last temperature going on for ever. Whole days run at their own rate
    /// and the last is shared out, so the answer has decimals. 0 when the stage is already reached; null when it never is.
    /// </summary>
    /// <param name="model">The rule for the stage.</param>
    /// <param name="fromFraction">Fraction done now, finite.</param>
    /// <param name="daily">Mean water temperature of today and the days that follow, °C; at least one.</param>
    public static double? DaysUntil(StageModel model, double fromFraction, IReadOnlyList<Celsius> daily)
    {
        if (daily.Count == 0) throw new ArgumentException("At least one day's temperature is needed.", nameof(daily));
        var left = 1 - Require.Finite(fromFraction, nameof(fromFraction));
        if (left <= 0) return 0;
        for (var day = 0; day < daily.Count - 1; day++)
        {
            var rate = model.RateAt(daily[day]);
            if (rate >= left) return day + (left / rate);
            left -= rate;
        }

        var last = model.RateAt(daily[^1]);
        return last > 0 ? daily.Count - 1 + (left / last) : null;
    }

    /// <summary>
    /// The 80% interval of a number of days from the model's error alone: days x exp(±1.2816 s), s being
    /// <see cref="StageModel.LogSd"/>, doubled out of range.
    /// </summary>
    /// <param name="days">Days to the stage, 0 or more.</param>
    /// <param name="model">The rule they came from.</param>
    /// <param name="inRange">Whether the temperature lay inside the source's range.</param>
    public static Band Interval(double days, StageModel model, bool inRange)
    {
        Require.NotNegative(days, nameof(days));
        var spread = Math.Exp(Normal.EightyPercent * model.LogSd * (inRange ? 1 : OutsideRangeFactor));
        return new Band(days / spread, days, days * spread);
    }

    /// <summary>
    /// When the stage comes and how sure that is, by first-order propagation of six causes of error. See
    /// <see cref="ForecastInput"/> for the causes and <see cref="DevelopmentForecast"/> for the answer.
    /// </summary>
    /// <param name="input">What is known of the eggs so far and of the water to come.</param>
    public static DevelopmentForecast Forecast(ForecastInput input) => new ForecastSum(input).Result();
}
