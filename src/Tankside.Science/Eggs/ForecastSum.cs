using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>
/// First-order error propagation. With f the fraction today and v the rate on the day of the stage, an error of df in the sum
/// moves the date by df / v, and a model that is e too fast in ln D moves it by e / v: the whole way, not the rest of it,
/// because the past was reckoned with the same model.
/// </summary>
internal sealed class ForecastSum
{
    private readonly ForecastInput _input;
    private readonly double? _days;

    public ForecastSum(ForecastInput input)
    {
        _input = input;
        Check(input);
        _days = Development.DaysUntil(input.Model, input.FractionSoFar, input.Future);
    }

    public DevelopmentForecast Result()
    {
        var passed = _input.FractionSoFar >= 1;
        var rate = _days is { } days ? _input.Model.RateAt(passed ? LastKnown() : FutureDay(LastIndex(days))) : 0;

        // A passed stage in water so cold that the rate is nothing has no error in days that could be told.
        if (_days is null || rate <= 0)
            return new DevelopmentForecast { DaysAhead = _days, SdDays = 0, Parts = [], Passed = passed };
        var parts = Parts(rate);
        return new DevelopmentForecast
        {
            DaysAhead = _days,
            SdDays = Math.Sqrt(parts.Sum(part => part.SdDays * part.SdDays)),
            Parts = parts,
            Passed = passed,
            Centre = passed ? (1 - _input.FractionSoFar) / rate : _days.Value,
        };
    }

    private ForecastPart[] Parts(double rate)
    {
        var i = _input;
        var model = Math.Sqrt((i.ModelSharedSd * i.ModelSharedSd) + (i.ModelOwnSd * i.ModelOwnSd))
            * (i.OutsideRange ? Development.OutsideRangeFactor : 1);
        var past = i.Past.Select(day => (Slope: Slope(day.Mean), day.ErrorSd)).ToArray();
        var future = FutureSlopes();
        var gaps = Math.Sqrt(past.Sum(day => Square(day.Slope * day.ErrorSd)));
        var coming = Math.Sqrt((Square(i.FutureDaySd) * future.Squares) + Square(i.FutureMeanSd * future.Sum));
        return
        [
            new(ForecastPartName.Model, model / rate),
            new(ForecastPartName.Start, i.StartFractionSd / rate),
            new(ForecastPartName.Spawning, i.SpawnSpreadDays / Math.Sqrt(12) * i.Model.RateAt(i.SpawnWaterMean) / rate),
            new(ForecastPartName.Thermometer, (past.Sum(day => day.Slope) + future.Sum) * i.ThermometerSd / rate),
            new(ForecastPartName.Gaps, gaps / rate),
            new(ForecastPartName.Future, coming / rate),
        ];
    }

    /// <summary>
    /// How fast the daily rate grows with temperature, summed over the days until the stage, the last by its share.
    /// </summary>
    private (double Sum, double Squares) FutureSlopes()
    {
        var days = _days!.Value;
        double sum = 0, squares = 0;
        for (var day = 0; day < Math.Min(days, _input.Future.Count); day++)
        {
            var share = Math.Min(1, days - day);
            var slope = Slope(FutureDay(day)) * share;
            sum += slope;
            squares += slope * slope;
        }

        // Past the end of the list every day is like its last, and a very long wait need not be walked.
        var rest = days - _input.Future.Count;
        if (rest <= 0) return (sum, squares);
        var last = Slope(_input.Future[^1]);
        var partial = rest - Math.Floor(rest);
        return (sum + (last * rest), squares + (last * last * (Math.Floor(rest) + (partial * partial))));
    }

    private double Slope(Celsius t) => _input.Model.SlopeAt(t);

    private Celsius FutureDay(int day) => _input.Future[Math.Min(day, _input.Future.Count - 1)];

    private Celsius LastKnown() => _input.Past.Count > 0 ? _input.Past[^1].Mean : _input.Future[0];

    private int LastIndex(double days) => (int)Math.Min(_input.Future.Count - 1, Math.Max(0, Math.Ceiling(days) - 1));

    private static double Square(double x) => x * x;

    private static void Check(ForecastInput input)
    {
        ReadOnlySpan<double> sds =
        [
            input.StartFractionSd, input.SpawnSpreadDays, input.ThermometerSd, input.FutureDaySd,
            input.FutureMeanSd, input.ModelSharedSd, input.ModelOwnSd,
        ];
        foreach (var sd in sds) Require.NotNegative(sd, nameof(input));
        foreach (var day in input.Past) Require.NotNegative(day.ErrorSd, nameof(input));
    }
}
