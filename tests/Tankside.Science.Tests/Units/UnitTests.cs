using CsCheck;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Units;

public class UnitTests
{
    [Theory]
    [InlineData(32, 0)]
    [InlineData(50, 10)]
    [InlineData(212, 100)]
    [InlineData(-40, -40)]
    public void Fahrenheit_and_celsius_agree_at_known_points(double f, double c)
    {
        Assert.Equal(c, Celsius.FromFahrenheit(f).Degrees, 12);
        Assert.Equal(f, new Celsius(c).Fahrenheit, 12);
    }

    [Fact]
    public void Fahrenheit_there_and_back_is_the_same() =>
        Gen.Double[-100, 200].Sample(f => Assert.Equal(f, Celsius.FromFahrenheit(f).Fahrenheit, 9));

    [Fact]
    public void Warmer_water_sorts_after_colder()
    {
        Celsius cold = new(4), warm = new(12);
        Assert.True(cold < warm && warm > cold && cold <= warm && warm >= cold);
        Assert.Equal([cold, warm], new[] { warm, cold }.Order());
    }

    [Fact]
    public void A_us_gallon_is_3_785_litres() => Assert.Equal(208.2, Litres.FromUsGallons(55).Value, 1);

    // Brook trout, Leitritz and Lewis table: 144 days at 35 °F and 44 days at 50 °F.
    [Theory]
    [InlineData(35, 144, 432)]
    [InlineData(50, 44, 792)]
    public void Thermal_units_of_brook_trout_differ_with_temperature(double f, double days, double units) =>
        Assert.Equal(units, ThermalUnits.At(Celsius.FromFahrenheit(f), days).FahrenheitDays, 6);

    [Fact]
    public void A_day_under_freezing_adds_no_thermal_units() =>
        Assert.Equal(15, ThermalUnits.Of([new(10), new(-3), new(5)]).CelsiusDays, 12);

    [Fact]
    public void Thermal_units_stand_still_in_freezing_water()
    {
        Assert.Null(new ThermalUnits(100).DaysUntil(new ThermalUnits(200), new Celsius(0)));
        Assert.Equal(0, new ThermalUnits(200).DaysUntil(new ThermalUnits(200), new Celsius(0)));
    }
}
