using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Science.Water;

/// <summary>Solves V dC/dt = K A (Cs - C) - M and spreads it over what is not known.</summary>
internal static class OxygenFall
{
    // Gas exchange of still water, cm/h, 80%.
    private const double SlowExchange = 0.5;
    private const double FastExchange = 1.7;

    // Equal-probability points along each of the two unknowns; 60 x 60 is within 1% of a much finer grid.
    private const int Points = 60;

    /// <param name="litres">Volume, L.</param>
    /// <param name="exchange">K A, L/h.</param>
    /// <param name="levels">Saturation, start and limit.</param>
    /// <param name="demand">M, mg/h.</param>
    public static double? Hours(double litres, double exchange, OxygenLevels levels, double demand)
    {
        var start = levels.Start.Value;
        var limit = levels.Limit.Value;
        if (start <= limit) return 0;
        if (exchange == 0) return demand > 0 ? litres * (start - limit) / demand : null;
        var settles = levels.Saturation.Value - (demand / exchange);
        return limit > settles ? litres / exchange * Math.Log((start - settles) / (limit - settles)) : null;
    }

    public static HoursBand Band(OxygenSituation s)
    {
        var levels = new OxygenLevels(Oxygen.Saturation(s.Water, s.Pressure), s.Start, s.Limit);
        var surface = s.SurfaceM2 ?? OxygenDemand.SurfaceFor(s.Volume);
        var demands = Spread(OxygenDemand.PerFish(s.Stage, s.Water, s.MeanGrams));
        var exchanges = Spread(new Band(SlowExchange, Math.Sqrt(SlowExchange * FastExchange), FastExchange));
        var hours = new List<double>(Points * Points);
        foreach (var k in exchanges)
        {
            foreach (var each in demands)
                hours.Add(Hours(s.Volume.Value, surface * k * 10, levels, each * s.Fish) ?? double.PositiveInfinity);
        }

        hours.Sort();
        return new HoursBand(At(hours, 0.1), At(hours, 0.5), At(hours, 0.9));
    }

    private static double? At(List<double> sorted, double share)
    {
        var hours = sorted[(int)(share * sorted.Count)];
        return double.IsFinite(hours) ? hours : null;
    }

    private static double[] Spread(Band band)
    {
        var (mu, sigma) = Lognormal.FromBand(band);
        return [.. Enumerable.Range(0, Points).Select(i => Math.Exp(mu + (sigma * Normal.Quantile((i + 0.5) / Points))))];
    }
}
