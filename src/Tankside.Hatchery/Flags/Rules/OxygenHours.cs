using Tankside.Hatchery.Eggs;
using Tankside.Science.Growth;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Hours of oxygen in water that stands still, by stage and number.</summary>
internal static class OxygenHours
{
    /// <summary>What the tank's water would hold at this temperature and at the school's height, mg/L.</summary>
    public static double Full(Situation s, double waterC) =>
        Oxygen.Saturation(new Celsius(waterC), Pressure.AtElevation(s.Tank.ElevationM)).Value;

    /// <summary>Until the whole tank has fallen from <paramref name="start"/> to <paramref name="limit"/>, mg/L; null when it never does.</summary>
    public static Band? OfTank(Situation s, double waterC, double start, double limit)
    {
        var hours = Oxygen.HoursUntil(new OxygenSituation
        {
            Volume = new Litres(s.Tank.Litres),
            Water = new Celsius(waterC),
            Pressure = Pressure.AtElevation(s.Tank.ElevationM),
            Stage = s.Stage switch
            {
                LifeStage.Egg => FishStage.Egg,
                LifeStage.Alevin => FishStage.Alevin,
                LifeStage.Fry => FishStage.Fry,
            },
            Fish = s.Record.Fish,
            MeanGrams = Grams(s),
            Start = new MilligramsPerLitre(start),
            Limit = new MilligramsPerLitre(limit),
        });
        return hours is { Low: { } low, Mid: { } mid, High: { } high } ? new Band(low, mid, high)
            : hours is { Low: { } soonest, Mid: { } middle } ? new Band(soonest, middle, middle * 4)
            : null;
    }

    /// <summary>Heaped eggs and alevins smother where they lie long before the tank's average is low.</summary>
    public static Band? WhereTheyLie(Situation s, Band? tank)
    {
        if (s.Swims)
        {
            return tank;
        }

        var basket = Heaped(s);
        return tank is { } whole && whole.Mid < basket.Mid ? whole : basket;
    }

    public static Band Heaped(Situation s)
    {
        var heap = s.Limits[Limits.StillBasketHours];
        return new Band(heap / 6, heap, heap * 4);
    }

    /// <summary>A fry's weight by its warmth since swim-up: the same power cut is a shrug in November and an emergency in April.</summary>
    private static double Grams(Situation s)
    {
        var days = s.Development.SwimUp is { } swimUp ? Math.Max(0, s.Today.DayNumber - swimUp.Mid.DayNumber) : 0;
        return Math.Max(s.Limits[Limits.FryGrams], FryGrowth.GramsAfter(days * Math.Max(0, s.Tank.SetPointC)));
    }
}
