using CsCheck;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Science.Tests.Water;

public class AmmoniaTests
{
    // Emerson et al. 1975, printed percentages; printed tables differ by up to 1% of the value.
    [Theory]
    [InlineData(7.0, 10, 0.18, 0.006)]
    [InlineData(8.0, 10, 1.82, 0.02)]
    [InlineData(8.0, 25, 5.37, 0.03)]
    public void Unionised_percent_meets_the_printed_value(double pH, double c, double percent, double tolerance) =>
        Rows.Near(percent, 100 * Ammonia.UnionizedFraction(new Celsius(c), pH), tolerance, "percent");

    // Emerson's equation worked out by hand.
    [Theory]
    [InlineData(0, 10.08440)]
    [InlineData(10, 9.73143)]
    public void The_pKa_follows_the_printed_equation(double c, double pKa) =>
        Rows.Near(pKa, Ammonia.PKa(new Celsius(c)), 1e-5, "pKa");

    // Worked from the same equation: the total that carries 0.0103 mg/L NH3-N (0.0125 as NH3) at 10 °C.
    [Theory]
    [InlineData(7.0, 5.55)]
    [InlineData(7.5, 1.76)]
    [InlineData(8.0, 0.56)]
    [InlineData(8.2, 0.36)]
    public void The_total_that_reaches_the_handbooks_limit_falls_with_pH(double pH, double total) =>
        Rows.Near(total, Ammonia.TotalNForUnionized(new(0.0103), pH, new Celsius(10)).Value, 0.012, "total");

    [Fact]
    public void Nitrogen_and_ammonia_are_never_the_same_number()
    {
        Rows.Near(0.0125, Ammonia.AsNH3(new(0.0103)).Value, 0.0001, "as NH3");
        Rows.Near(1.216, Ammonia.NH3PerN, 0.0005, "ratio");
    }

    [Fact]
    public void Total_for_unionised_undoes_unionised() =>
        Gen.Select(Gen.Double[0, 10], Gen.Double[5, 10], Gen.Double[0, 30]).Sample((total, pH, c) => Assert.Equal(total,
            Ammonia.TotalNForUnionized(Ammonia.UnionizedN(new(total), pH, new(c)), pH, new(c)).Value, 9));

    [Fact]
    public void Warmer_and_more_alkaline_water_is_more_toxic() =>
        Gen.Select(Gen.Double[5, 9], Gen.Double[0, 29]).Sample((pH, c) =>
        {
            var here = Ammonia.UnionizedFraction(new(c), pH);
            Assert.True(Ammonia.UnionizedFraction(new(c + 1), pH) > here && Ammonia.UnionizedFraction(new(c), pH + 0.5) > here);
            Assert.InRange(here, 0, 1);
        });

    [Theory]
    [InlineData(-1, 7)]
    [InlineData(41, 7)]
    [InlineData(10, -0.1)]
    [InlineData(10, 15)]
    [InlineData(double.NaN, 7)]
    [InlineData(10, double.NaN)]
    public void Impossible_water_is_refused(double c, double pH)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Ammonia.UnionizedFraction(new Celsius(c), pH));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ammonia.LongTermCriterionTotalN(pH, new Celsius(c)));
    }

    [Fact]
    public void A_negative_amount_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Ammonia.UnionizedN(new(-0.1), 7, new(10)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ammonia.AsNH3(new(double.NaN)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Chlorine.MonochloramineHalfLethal(0));
    }
}
