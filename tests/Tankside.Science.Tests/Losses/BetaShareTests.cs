using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Losses;

/// <summary>Source of the law: Johnson, Kemp and Kotz, Univariate Discrete Distributions, 3rd ed. 2005, section 6.2.2 (from memory).</summary>
public class BetaShareTests
{
    [Fact]
    public void With_nothing_known_every_count_is_as_likely()
    {
        // Beta(1, 1): the discrete uniform distribution on 0..n, a textbook case.
        var share = new BetaShare(1, 1);
        for (var k = 0; k <= 11; k++)
        {
            Assert.Equal((11 - k) / 11.0, share.AtLeast(k, 10), 12);
        }
    }

    [Fact]
    public void Small_cases_are_as_worked_by_hand()
    {
        // P(k of 2), a = 2, b = 3: B(2, 5)/B(2, 3) = 0.4, 2 B(3, 4)/B(2, 3) = 0.4, B(4, 3)/B(2, 3) = 0.2.
        var share = new BetaShare(2, 3);

        Assert.Equal(0.6, share.AtLeast(1, 2), 12);
        Assert.Equal(0.2, share.AtLeast(2, 2), 12);
        Assert.Equal(0, share.AtLeast(3, 2));
        Assert.Equal(1, share.Quantile(0.5, 2));
        Assert.Equal(2, share.Quantile(0.81, 2));
    }

    [Fact]
    public void A_share_that_is_well_known_gives_the_binomial_distribution()
    {
        var share = new BetaShare(0.3e9, 0.7e9);
        double exact = 0;
        for (var k = 5; k <= 10; k++)
        {
            exact += Choose(10, k) * Math.Pow(0.3, k) * Math.Pow(0.7, 10 - k);
        }

        Assert.Equal(exact, share.AtLeast(5, 10), 7);
    }

    [Fact]
    public void Many_fish_neither_overflow_nor_lose_their_mean()
    {
        var (share, n) = (new BetaShare(62, 41), 20_000);
        var mean = Enumerable.Range(1, n).Where(k => k % 20 == 0).Sum(k => 20 * share.AtLeast(k, n));

        Assert.InRange(mean, (share.Mean * n) - 20, (share.Mean * n) + 20);
        Assert.InRange(share.AtLeast((int)(share.Mean * n), n), 0.45, 0.55);
    }

    private static double Choose(int n, int k) => Enumerable.Range(1, k).Aggregate(1.0, (c, i) => c * (n - k + i) / i);
}
