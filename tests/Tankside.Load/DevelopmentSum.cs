using System.Diagnostics;
using System.Globalization;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Load;

/// <summary>The fraction of development of many tanks over a season, beside the same formula in a bare loop over the same temperatures.</summary>
public static class DevelopmentSum
{
    public static async Task<Comparison> MeasureAsync(bool quick)
    {
        var (tanks, days) = quick ? (1000, 200) : (10_000, 200);
        var water = Enumerable.Range(0, tanks).Select(tank => Enumerable.Range(0, days).Select(day => new Celsius(7 + ((tank + (day * 7)) % 50 / 10.0))).ToArray()).ToArray();
        if (!StageModels.TryFind(Species.RainbowTrout, Stage.Hatch, out var model, out var why))
        {
            throw new InvalidOperationException(why);
        }

        var (by, bare) = (0.0, 0.0);
        var comparison = await Comparison.RunAsync(
            string.Create(CultureInfo.InvariantCulture, $"development of {tanks:#,0} tanks over {days} days"), null, quick ? 3 : 9, Comparison.AsSeconds,
            portal: () => Task.FromResult(Timed(() => by = water.Sum(tank => Development.Fraction(model, tank)))),
            bare: () => Task.FromResult(Timed(() => bare = BareSum(water))));

        // The loop is a fair one only if it does the same work.
        return Math.Abs(by - bare) < 1e-6 * bare ? comparison : throw new InvalidOperationException($"{by} is not {bare}.");
    }

    /// <summary>log10 D = a + b log10(T - alpha), Crisp 1981, with the coefficients for rainbow trout as the model has them (from memory).</summary>
    private static double BareSum(Celsius[][] water)
    {
        var sum = 0.0;
        foreach (var tank in water)
        {
            for (var day = 0; day < tank.Length; day++)
            {
                sum += 1 / Math.Pow(10, 4.0313 - (2.0961 * Math.Log10(tank[day].Degrees + 6)));
            }
        }

        return sum;
    }

    private static Side Timed(Action work)
    {
        var watch = Stopwatch.StartNew();
        work();
        return new Side(watch.Elapsed.TotalSeconds);
    }
}
