using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Losses;

public class PoissonTests
{
    /// <summary>Cumulative probabilities as printed to four decimals in the tables of any textbook (from memory).</summary>
    [Theory]
    [InlineData(0, 1, 0.3679)]
    [InlineData(1, 1, 0.7358)]
    [InlineData(2, 1, 0.9197)]
    [InlineData(3, 1, 0.9810)]
    [InlineData(2, 0.5, 0.9856)]
    [InlineData(5, 5, 0.6160)]
    [InlineData(10, 5, 0.9863)]
    public void Cumulative_probabilities_agree_with_the_printed_table(int most, double mean, double printed) =>
        Assert.Equal(printed, Poisson.AtMost(most, mean), 0.00006);

    [Fact]
    public void The_sum_of_the_terms_is_the_cumulative_probability()
    {
        foreach (var mean in new[] { 0.01, 0.4, 1.8, 7.5, 40 })
        {
            var term = Math.Exp(-mean);
            var sum = term;
            for (var k = 0; k <= 80; k++)
            {
                Assert.Equal(sum, Poisson.AtMost(k, mean), 1e-12);
                term *= mean / (k + 1);
                sum += term;
            }
        }
    }

    /// <summary>
    /// 25 events: 17.38 to 34.92 at 90%, 16.18 to 36.90 at 95%, 14.00 to 41.00 at 99%, worked in GraphPad's note on the confidence interval
    /// of a count (seen). 3.689 above none is printed in the manual of R's epitools (seen). 1, 5 and 10 events from Garwood's table (from memory).
    /// </summary>
    [Theory]
    [InlineData(25, 0.90, 17.38, 34.92, 0.005)]
    [InlineData(25, 0.95, 16.18, 36.90, 0.006)]
    [InlineData(25, 0.99, 14.00, 41.00, 0.006)]
    [InlineData(0, 0.95, 0, 3.689, 0.0005)]
    [InlineData(1, 0.95, 0.0253, 5.572, 0.0005)]
    [InlineData(5, 0.95, 1.623, 11.668, 0.001)]
    [InlineData(10, 0.95, 4.795, 18.390, 0.001)]
    public void The_exact_interval_agrees_with_the_published_ones(int events, double confidence, double low, double high, double within)
    {
        var interval = Poisson.Interval(events, confidence);

        Assert.Equal(low, interval.Low, within);
        Assert.Equal(high, interval.High, within);
    }

    [Fact]
    public void Both_ends_leave_their_share_outside()
    {
        foreach (var events in new[] { 1, 3, 17, 120 })
        {
            var (low, high) = Poisson.Interval(events, 0.8);

            Assert.Equal(0.1, 1 - Poisson.AtMost(events - 1, low), 1e-9);
            Assert.Equal(0.1, Poisson.AtMost(events, high), 1e-9);
        }
    }

    [Fact]
    public void The_smallest_covering_number_covers_and_one_less_does_not()
    {
        foreach (var mean in new[] { 0.2, 0.9, 1.8, 4.4, 20 })
        {
            var number = Poisson.SmallestCovering(mean, 0.95);

            Assert.True(Poisson.AtMost(number, mean) >= 0.95);
            Assert.True(number == 0 || Poisson.AtMost(number - 1, mean) < 0.95);
        }
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Poisson.Interval(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Poisson.Interval(1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Poisson.AtMost(-1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Poisson.AtMost(1, double.NaN));
    }
}
