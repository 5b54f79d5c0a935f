using Tankside.Science.Units;

namespace Tankside.Science.Heat;

/// <summary>
/// Learns ln tau from readings. The prior is normal in ln tau; each reading is T = S - u exp(-t / tau) plus a normal error; the
/// unknown starting gap u is fitted anew for every tau (it is linear). Mean and standard deviation of the posterior over a fine
/// grid of ln tau make the normal answer.
/// </summary>
internal static class TauLearning
{
    private const int Points = 4001;
    private const double ReachInSds = 10;

    public static (double MidHours, double LogSd) Posterior(
        (double Mid, double LogSd) prior, IReadOnlyList<(double Hours, Celsius Water)> readings, Celsius settlesAt, double sd)
    {
        var first = readings.Min(reading => reading.Hours);
        var gaps = readings.Select(r => (Time: r.Hours - first, Gap: settlesAt.Degrees - r.Water.Degrees)).ToArray();
        var (centre, scores) = (Math.Log(prior.Mid), new double[Points]);
        double At(int i) => centre + (prior.LogSd * ReachInSds * ((2.0 * i / (Points - 1)) - 1));
        for (var i = 0; i < Points; i++)
        {
            var steps = (At(i) - centre) / prior.LogSd;
            scores[i] = -0.5 * ((steps * steps) + (Misfit(gaps, Math.Exp(At(i))) / (sd * sd)));
        }

        var best = scores.Max();
        double weight = 0, mean = 0, square = 0;
        for (var i = 0; i < Points; i++)
        {
            var w = Math.Exp(scores[i] - best);
            var x = At(i) - centre;
            weight += w;
            mean += w * x;
            square += w * x * x;
        }

        mean /= weight;
        var variance = Math.Max(0, (square / weight) - (mean * mean));
        var floor = Math.Min(Warming.SmallestTauLogSd, prior.LogSd);
        return (prior.Mid * Math.Exp(mean), Math.Max(floor, Math.Sqrt(variance)));
    }

    private static double Misfit((double Time, double Gap)[] gaps, double tau)
    {
        double cross = 0, decays = 0;
        foreach (var (time, gap) in gaps)
        {
            var decay = Math.Exp(-time / tau);
            cross += decay * gap;
            decays += decay * decay;
        }

        var start = cross / decays;
        return gaps.Sum(g => Math.Pow(g.Gap - (start * Math.Exp(-g.Time / tau)), 2));
    }
}
