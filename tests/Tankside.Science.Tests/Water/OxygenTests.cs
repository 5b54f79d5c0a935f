using CsCheck;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Science.Tests.Water;

public class OxygenTests
{
    // APHA Standard Methods 4500-O, table at one atmosphere and no salt (from memory).
    [Theory]
    [InlineData(0, 14.621)]
    [InlineData(5, 12.770)]
    [InlineData(10, 11.288)]
    [InlineData(15, 10.084)]
    [InlineData(20, 9.092)]
    [InlineData(25, 8.263)]
    public void Saturation_meets_the_table_of_standard_methods(double c, double mgL) =>
        Rows.Near(mgL, Oxygen.SaturationAtOneAtmosphere(new Celsius(c)).Value, 0.0015, "saturation");

    // Worked example: 5,000 ft and 12 °C cannot hold 9.5 mg/L.
    [Fact]
    public void At_5000_feet_and_12_C_water_holds_8_94()
    {
        var pressure = Pressure.AtElevation(1524);
        Rows.Near(8.94, Oxygen.Saturation(new Celsius(12), pressure).Value, 0.01, "saturation");
        Rows.Near(106, Oxygen.PercentOfSaturation(new MilligramsPerLitre(9.5), new Celsius(12), pressure), 0.5, "percent");
    }

    // The printed equation worked out by hand, to guard the small terms that no table's rounding shows.
    [Theory]
    [InlineData(5, 60, 7.519958)]
    [InlineData(20, 70, 6.216452)]
    [InlineData(35, 80, 5.401454)]
    public void Saturation_at_low_pressure_follows_the_printed_equation(double c, double kPa, double mgL) =>
        Rows.Near(mgL, Oxygen.Saturation(new Celsius(c), new Kilopascals(kPa)).Value, 1e-6, "saturation");

    [Fact]
    public void At_one_atmosphere_the_pressure_correction_is_nothing() => Gen.Double[0, 40].Sample(c => Assert.Equal(
        Oxygen.SaturationAtOneAtmosphere(new Celsius(c)).Value,
        Oxygen.Saturation(new Celsius(c), new Kilopascals(101.325)).Value, 9));

    [Fact]
    public void Colder_water_and_higher_pressure_hold_more() =>
        Gen.Select(Gen.Double[0, 39], Gen.Double[50, 109]).Sample((c, kPa) =>
        {
            var here = Oxygen.Saturation(new Celsius(c), new Kilopascals(kPa)).Value;
            Assert.True(Oxygen.Saturation(new Celsius(c + 1), new Kilopascals(kPa)).Value < here);
            Assert.True(Oxygen.Saturation(new Celsius(c), new Kilopascals(kPa + 1)).Value > here);
        });

    [Theory]
    [InlineData(-0.1, 101.325)]
    [InlineData(40.1, 101.325)]
    [InlineData(double.NaN, 101.325)]
    [InlineData(10, 19)]
    [InlineData(10, 151)]
    [InlineData(10, double.NaN)]
    public void Saturation_outside_its_range_is_refused(double c, double kPa) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Oxygen.Saturation(new Celsius(c), new Kilopascals(kPa)));
}
