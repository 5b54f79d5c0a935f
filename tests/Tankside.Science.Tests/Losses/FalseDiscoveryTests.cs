using CsCheck;
using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Losses;

public class FalseDiscoveryTests
{
    // Benjamini and Hochberg 1995, section 4.1: fifteen probabilities, of which four pass at 0.05 (Bonferroni lets three pass).
    private static readonly double[] Printed =
        [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.000];

    [Fact]
    public void Four_of_the_fifteen_printed_ones_pass()
    {
        var adjusted = FalseDiscovery.Adjust(Printed);

        Assert.Equal(4, adjusted.Count(p => p <= 0.05));
        Assert.Equal(0.0095 * 15 / 4, adjusted[3], 12);
        Assert.Equal(0.0298 * 15 / 7, adjusted[5], 12); // The sixth is not worse than the seventh lets it be.
    }

    [Fact]
    public void The_order_they_come_in_does_not_matter() =>
        Assert.Equal(FalseDiscovery.Adjust(Printed), FalseDiscovery.Adjust([.. Printed.Reverse()]).Reverse());

    [Fact]
    public void None_is_made_smaller_or_passes_one_and_order_is_kept() => Gen.Double[0, 1].Array[0, 30].Sample(ps =>
    {
        var adjusted = FalseDiscovery.Adjust(ps);

        Assert.All(adjusted.Zip(ps), t => Assert.InRange(t.First, t.Second - 1e-12, 1));
        Assert.Equal(adjusted.Order(), ps.Zip(adjusted).OrderBy(t => t.First).Select(t => t.Second));
    });

    [Fact]
    public void One_alone_stays_as_it_is() => Assert.Equal([0.03], FalseDiscovery.Adjust([0.03]));

    [Theory]
    [InlineData(-0.1)]
    [InlineData(1.1)]
    [InlineData(double.NaN)]
    public void What_is_no_probability_is_refused(double p) => Assert.Throws<ArgumentOutOfRangeException>(() => FalseDiscovery.Adjust([0.5, p]));
}
