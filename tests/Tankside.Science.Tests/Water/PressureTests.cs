using Tankside.Science.Water;

namespace Tankside.Science.Tests.Water;

public class PressureTests
{
    // ISO 2533 standard atmosphere, printed values (from memory).
    [Theory]
    [InlineData(0, 101.325)]
    [InlineData(1000, 89.876)]
    [InlineData(3000, 70.121)]
    [InlineData(11000, 22.632)]
    public void Pressure_falls_with_elevation_as_in_the_standard(double metres, double kPa) =>
        Rows.Near(kPa, Pressure.AtElevation(metres).Value, 0.02, "pressure");

    [Theory]
    [InlineData(-501)]
    [InlineData(11001)]
    [InlineData(double.NaN)]
    public void Elevations_outside_the_standard_are_refused(double metres) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Pressure.AtElevation(metres));

    [Fact]
    public void Hectopascals_and_millimetres_name_the_same_atmosphere()
    {
        Assert.Equal(101.325, Pressure.FromHectopascals(1013.25).Value, 9);
        Assert.Equal(101.325, Pressure.FromMillimetresOfMercury(760).Value, 9);
        Assert.Throws<ArgumentOutOfRangeException>(() => Pressure.FromHectopascals(0));
    }
}
