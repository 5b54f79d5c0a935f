using Tankside.Science.Growth;

namespace Tankside.Science.Tests.Growth;

public class FryGrowthTests
{
    /// <summary>7.1 °C-months (of 30.4 days) for a centimetre: rainbow trout, Dwyer et al., as tabled for 7 to 19 °C.</summary>
    [Fact]
    public void A_centimetre_takes_the_warmth_that_was_measured_for_rainbow_trout()
    {
        Assert.Equal(0.010 * Math.Pow(2.5, 3), FryGrowth.GramsAfter(0), 6);
        Assert.Equal(0.010 * Math.Pow(3.5, 3), FryGrowth.GramsAfter(7.1 * 30.4), 6);
    }

    [Fact]
    public void Four_months_at_ten_degrees_make_a_fish_of_several_grams() => Assert.InRange(FryGrowth.GramsAfter(1200), 4, 8);

    [Fact]
    public void Warmth_below_nothing_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => FryGrowth.GramsAfter(-1));
}
