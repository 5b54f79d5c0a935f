using System.Globalization;
using BenchmarkDotNet.Attributes;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Load;

/// <summary>The fraction of development of many tanks over a season, beside the same formula in a bare loop over the same temperatures.</summary>
public class DevelopmentSum
{
    private const int Tanks = 10_000, Days = 200;

    private readonly Celsius[][] water = [.. Enumerable.Range(0, Tanks).Select(tank => Enumerable.Range(0, Days).Select(day => new Celsius(7 + ((tank + (day * 7)) % 50 / 10.0))).ToArray())];

    private readonly StageModel model = StageModels.TryFind(Species.RainbowTrout, Stage.Hatch, out var found, out var why) ? found : throw new InvalidOperationException(why);

    public static Comparison Measure(bool quick)
    {
        // The loop is a fair one only if it does the same work.
        var sum = new DevelopmentSum();
        var (by, bare) = (sum.Tankside(), sum.Bare());
        return Math.Abs(by - bare) < 1e-6 * bare
            ? PureParts.Run<DevelopmentSum>(
                string.Create(CultureInfo.InvariantCulture, $"development of {Tanks:#,0} tanks over {Days} days"), quick, nameof(Tankside), nameof(Bare))
            : throw new InvalidOperationException($"{by} is not {bare}.");
    }

    [Benchmark]
    public double Tankside() => water.Sum(tank => Development.Fraction(model, tank));

    /// <summary>log10 D = a + b log10(T - alpha), Crisp 1981, with the coefficients for rainbow trout as the model has them (from memory).</summary>
    [Benchmark(Baseline = true)]
    public double Bare()
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
}
