using Tankside.Hatchery.Eggs;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings;

/// <summary>The share of the way that eggs had done when they were delivered, and the error that all tanks of their lot have in it.</summary>
internal readonly record struct LotStart(double Fraction, double Sd)
{
    /// <summary>Error of the hatchery's mean temperature, °C: it is an average handed over by word of mouth.</summary>
    private const double HatcheryMeanSd = 0.5;

    public static LotStart Of(LotProfile lot, StageModel model)
    {
        var days = Math.Max(0, lot.DeliveredOn.DayNumber - lot.Fertilised.DayNumber);
        var slope = model.RateAt(new Celsius(lot.HatcheryMeanC + 0.5)) - model.RateAt(new Celsius(lot.HatcheryMeanC - 0.5));
        return new LotStart(days * model.RateAt(new Celsius(lot.HatcheryMeanC)), days * HatcheryMeanSd * Math.Abs(slope));
    }
}
