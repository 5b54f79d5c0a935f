using CsCheck;
using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Losses;

public class BinomialTests
{
    [Fact]
    public void The_upper_tail_is_the_sum_of_its_terms() =>
        Gen.Select(Gen.Int[1, 60].SelectMany(n => Gen.Int[0, n].Select(k => (k, n))), Gen.Double[0.001, 0.999]).Sample((t, p) =>
        {
            double sum = 0, term = Math.Pow(1 - p, t.n);
            for (var x = 0; x <= t.n; x++)
            {
                sum += x >= t.k ? term : 0;
                term *= p / (1 - p) * (t.n - x) / (x + 1);
            }

            Rows.Near(sum, Binomial.UpperTail(t.k, t.n, p), 1e-9, "tail");
        });

    // By hand: 1 - 0.9^8 - 8 x 0.1 x 0.9^7 - 28 x 0.01 x 0.9^6.
    [Fact]
    public void Three_of_eight_at_one_in_ten() => Assert.Equal(0.03809179, Binomial.UpperTail(3, 8, 0.1), 8);

    [Fact]
    public void Ends()
    {
        Assert.Equal((1, 0, 1), (Binomial.UpperTail(0, 8, 0), Binomial.UpperTail(1, 8, 0), Binomial.UpperTail(8, 8, 1)));
        Assert.Equal(1, Binomial.UpperTail(0, 0, 0.3));
        Rows.Near(1, Binomial.UpperTail(20, 20, 0.01) / 1e-40, 1e-9, "tail");
    }

    [Theory]
    [InlineData(-1, 8, 0.1)]
    [InlineData(9, 8, 0.1)]
    [InlineData(1, 8, -0.1)]
    [InlineData(1, 8, 1.1)]
    [InlineData(1, 8, double.NaN)]
    public void Impossible_numbers_are_refused(int atLeast, int of, double p) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Binomial.UpperTail(atLeast, of, p));
}
