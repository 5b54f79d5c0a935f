using Tankside.Science.Losses;

namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>
/// The normal distribution out of a table, for a search that asks it a million times: cubic between its entries, within 1e-10 of
/// <see cref="Normal.Cdf"/>.
/// </summary>
internal static class NormalTable
{
    private const int PerSd = 64, Reach = 8;

    private static readonly double[] Value = [.. Grid().Select(Normal.Cdf)];

    private static readonly double[] Slope = [.. Grid().Select(z => Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI) / PerSd)];

    public static double Cdf(double z)
    {
        var x = (z + Reach) * PerSd;
        if (!(x > 0))
        {
            return 0;
        }

        var i = (int)x;
        if (i >= Value.Length - 1)
        {
            return 1;
        }

        var t = x - i;
        var (a, b) = (Value[i], Value[i + 1]);
        var (p, q) = (Slope[i] - (b - a), (b - a) - Slope[i + 1]);
        return a + (t * (b - a)) + (t * (1 - t) * (((1 - t) * p) + (t * q)));
    }

    private static IEnumerable<double> Grid() => Enumerable.Range(0, (2 * Reach * PerSd) + 1).Select(i => ((double)i / PerSd) - Reach);
}
