using CsCheck;
using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Losses;

public class DistributionTests
{
    // Printed normal quantiles, any statistics text.
    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.90, 1.2815515655446004)]
    [InlineData(0.95, 1.6448536269514722)]
    [InlineData(0.975, 1.959963984540054)]
    [InlineData(0.995, 2.5758293035489004)]
    [InlineData(0.001, -3.090232306167813)]
    [InlineData(1e-9, -5.997807015007774)]
    public void Normal_quantiles_meet_the_printed_ones(double p, double z)
    {
        Assert.Equal(z, Normal.Quantile(p), 9);
        Rows.Near(1, Normal.Cdf(z) / p, 1e-9, "probability");
    }

    [Fact]
    public void Quantile_and_probability_undo_each_other() =>
        Gen.Double[1e-12, 1 - 1e-9].Sample(p => Rows.Near(p, Normal.Cdf(Normal.Quantile(p)), 1e-12, "probability"));

    [Fact]
    public void The_upper_quantile_mirrors_the_lower_to_the_last_digit() =>
        Gen.Int[1, 999].Sample(k => Assert.Equal(-Normal.Quantile(k / 1024.0), Normal.Quantile(1 - (k / 1024.0))));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Certainty_has_no_normal_quantile(double p) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Normal.Quantile(p));

    [Fact]
    public void The_normal_ends_are_zero_and_one()
    {
        Assert.Equal((0, 1), (Normal.Cdf(double.NegativeInfinity), Normal.Cdf(double.PositiveInfinity)));
        Assert.True(double.IsNaN(Normal.Cdf(double.NaN)));
    }

    [Fact]
    public void A_band_and_its_lognormal_hold_80_percent()
    {
        var (mu, sigma) = Lognormal.FromBand(new Band(2, 4, 8));
        Assert.Equal(0.1, Lognormal.Cdf(2, mu, sigma), 9);
        Assert.Equal(0.5, Lognormal.Cdf(4, mu, sigma), 9);
        Assert.Equal(0.9, Lognormal.Cdf(8, mu, sigma), 9);
        Assert.Equal(0, Lognormal.Cdf(0, mu, sigma));
    }

    [Fact]
    public void A_lognormal_without_spread_is_a_step()
    {
        var (mu, sigma) = Lognormal.FromBand(new Band(4, 4, 4));
        Assert.Equal((0, 1), (Lognormal.Cdf(3.9, mu, sigma), Lognormal.Cdf(4.1, mu, sigma)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Lognormal.Cdf(1, 0, -1));
    }

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(3, 2, 4)]
    [InlineData(1, 2, double.NaN)]
    public void A_band_out_of_order_or_at_zero_has_no_lognormal(double low, double mid, double high) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Lognormal.FromBand(new Band(low, mid, high)));
}
