using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Tests.Readings;

public class TypedTemperatureTests
{
    [Theory]
    [InlineData("52", 52, null)]
    [InlineData(" 52 ", 52, null)]
    [InlineData("52.5", 52.5, null)]
    [InlineData("52,5", 52.5, null)]
    [InlineData("-1", -1, null)]
    [InlineData("52°", 52, null)]
    [InlineData("52 F", 52, TemperatureUnit.F)]
    [InlineData("52f", 52, TemperatureUnit.F)]
    [InlineData("52 °F", 52, TemperatureUnit.F)]
    [InlineData("11,1 °c", 11.1, TemperatureUnit.C)]
    [InlineData("11.1C", 11.1, TemperatureUnit.C)]
    public void A_number_is_read_as_people_type_it(string typed, double value, TemperatureUnit? unit)
    {
        Assert.True(WaterTemperature.TryRead(typed, out var read, out var scale));
        Assert.Equal((value, unit), (read, scale));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("cold")]
    [InlineData("F")]
    [InlineData("5 2")]
    [InlineData("1.052,5")]
    [InlineData("5e1")]
    public void What_is_no_number_is_not_read(string? typed) => Assert.False(WaterTemperature.TryRead(typed, out _, out _));

    [Fact]
    public void A_decimal_comma_never_makes_hundreds_in_any_language()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            foreach (var name in new[] { "en-US", "es-MX", "de-DE", "es-ES" })
            {
                CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(name);
                Assert.True(WaterTemperature.TryRead("52,5", out var comma, out _));
                Assert.True(WaterTemperature.TryRead("52.5", out var point, out _));
                Assert.Equal((52.5, 52.5), (comma, point));
            }
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void A_written_scale_wins_over_the_switch()
    {
        var at = new DateTime(2027, 1, 20, 18, 0, 0, DateTimeKind.Utc);
        var habits = new TankHabits(11, at.AddDays(-1), 208, Jacket.None, 21);
        const TemperatureUnit switchedTo = TemperatureUnit.C;

        Assert.True(WaterTemperature.TryRead("52 F", out var value, out var written));

        Assert.Equal(new WaterVerdict.Believed(11.11), WaterTemperature.Judge(value, written ?? switchedTo, at, habits));
    }
}
