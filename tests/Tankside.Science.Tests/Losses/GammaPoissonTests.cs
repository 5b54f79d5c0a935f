using CsCheck;
using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Losses;

public class GammaPoissonTests
{
    // The negative binomial summed term by term: P(0) = (rate / (rate + exposure))^shape, then the usual ratio.
    [Fact]
    public void The_upper_tail_is_the_summed_negative_binomial() =>
        Gen.Select(Gen.Double[0.2, 60], Gen.Double[0.5, 500], Gen.Double[0.1, 300], Gen.Int[0, 40])
            .Sample((shape, rate, exposure, observed) =>
        {
            var q = exposure / (rate + exposure);
            var term = Math.Pow(1 - q, shape);
            var below = 0.0;
            for (var k = 0; k < observed; k++)
            {
                below += term;
                term *= q * (shape + k) / (k + 1);
            }

            Rows.Near(1 - below, GammaPoisson.UpperTail(shape, rate, exposure, observed), 1e-9, "tail");
        });

    [Fact]
    public void A_tail_far_out_keeps_its_digits()
    {
        var q = 1.0 / 101;
        double sum = 0, term = Math.Pow(1 - q, 2);
        for (var k = 0; k < 200; k++)
        {
            if (k >= 12) sum += term;
            term *= q * (2.0 + k) / (k + 1);
        }

        Rows.Near(1, GammaPoisson.UpperTail(2, 100, 1, 12) / sum, 1e-9, "tail");
    }

    [Fact]
    public void A_large_shape_is_almost_poisson() =>
        Rows.Near(1 - (Math.Exp(-2) * (1 + 2 + 2)), GammaPoisson.UpperTail(1e7, 1e7 / 2, 1, 3), 1e-6, "tail");

    [Fact]
    public void None_lost_is_never_surprising_and_some_lost_in_no_time_is_impossible()
    {
        Assert.Equal(1, GammaPoisson.UpperTail(1, 100, 0, 0));
        Assert.Equal(0, GammaPoisson.UpperTail(1, 100, 0, 1));
    }

    [Fact]
    public void What_was_seen_is_added_to_what_was_believed() => Assert.Equal((5, 140), GammaPoisson.Posterior(2, 100, 3, 40));

    // Recovers the gamma the counts were drawn from; seeded.
    [Fact]
    public void Moments_find_the_spread_that_made_the_counts()
    {
        var random = new Random(7);
        var siblings = Enumerable.Range(0, 4000).Select(_ => (Poisson(random, 200 * Gamma3(random) / 300), 200.0)).ToArray();
        var (shape, rate) = GammaPoisson.FitMoments(siblings);
        Assert.InRange(shape, 2.5, 3.5);
        Assert.InRange(shape / rate, 0.0095, 0.0105);
    }

    // By hand: mean 15/400, scatter 0.2425, of which 2 x 0.0375 is Poisson; the rest over 250 leaves 0.00067.
    [Fact]
    public void Moments_of_three_siblings_are_those_worked_by_hand()
    {
        var (shape, rate) = GammaPoisson.FitMoments([(2, 100), (8, 100), (5, 200)]);
        Assert.Equal(0.0375 * 0.0375 / 0.00067, shape, 9);
        Assert.Equal(0.0375 / 0.00067, rate, 9);
    }

    [Fact]
    public void Siblings_that_look_alike_keep_a_small_spread()
    {
        Assert.Equal((100, 1000), GammaPoisson.FitMoments([(10, 100), (10, 100), (10, 100)]));
        Assert.Equal((100, 1000), GammaPoisson.FitMoments([(10, 100)]));
        Assert.Equal((0.5, 300), GammaPoisson.FitMoments([(0, 100), (0, 200), (0, 0)]));
    }

    [Fact]
    public void Nothing_to_learn_from_and_negative_counts_are_refused()
    {
        Assert.Throws<ArgumentException>(() => GammaPoisson.FitMoments([]));
        Assert.Throws<ArgumentException>(() => GammaPoisson.FitMoments([(0, 0)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => GammaPoisson.FitMoments([(-1, 10)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => GammaPoisson.UpperTail(0, 1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => GammaPoisson.UpperTail(1, 1, -1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => GammaPoisson.Posterior(1, 1, -1, 1));
    }

    private static double Gamma3(Random random) => -Enumerable.Range(0, 3).Sum(_ => Math.Log(1 - random.NextDouble()));

    private static int Poisson(Random random, double mean)
    {
        var (count, left) = (0, random.NextDouble());
        for (var term = Math.Exp(-mean); left > term; term *= mean / count)
        {
            left -= term;
            count++;
        }

        return count;
    }
}
