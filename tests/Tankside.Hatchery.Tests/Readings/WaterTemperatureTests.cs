using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Tests.Readings;

public class WaterTemperatureTests
{
    private static readonly DateTime At = new(2027, 1, 20, 18, 0, 0, DateTimeKind.Utc);

    private static readonly TankHabits NewTank = new(null, null, 208, Jacket.None, 21);

    /// <summary>A tank at 11 °C (51.8 °F) an hour or some hours ago.</summary>
    private static TankHabits Eleven(double hoursAgo = 24) => NewTank with { LastWaterC = 11, LastAt = At.AddHours(-hoursAgo) };

    private static WaterVerdict Judge(double value, TemperatureUnit unit, TankHabits? habits = null) =>
        WaterTemperature.Judge(value, unit, At, habits ?? Eleven());

    [Theory]
    [InlineData("11", 11)]
    [InlineData("11.1", 11.1)]
    [InlineData("5.2", 5.2)]
    public void A_cold_tank_on_the_celsius_scale_is_believed(string typed, double celsius)
    {
        Assert.True(WaterTemperature.TryRead(typed, out var value, out _));
        Assert.Equal(new WaterVerdict.Believed(celsius), Judge(value, TemperatureUnit.C));
    }

    [Theory]
    [InlineData("52", 11.11)]
    [InlineData("52,5", 11.39)]
    [InlineData("52.5", 11.39)]
    public void A_cold_tank_on_the_fahrenheit_scale_is_believed_and_kept_in_celsius(string typed, double celsius)
    {
        Assert.True(WaterTemperature.TryRead(typed, out var value, out _));
        Assert.Equal(new WaterVerdict.Believed(celsius), Judge(value, TemperatureUnit.F));
    }

    [Theory]
    [InlineData(11, TemperatureUnit.F, Doubt.OtherScale, -11.67, 11, TemperatureUnit.C)]
    [InlineData(11.1, TemperatureUnit.F, Doubt.OtherScale, -11.61, 11.1, TemperatureUnit.C)]
    [InlineData(5.2, TemperatureUnit.F, Doubt.OtherScale, -14.89, 11.11, TemperatureUnit.F)]
    [InlineData(52, TemperatureUnit.C, Doubt.OtherScale, 52, 11.11, TemperatureUnit.F)]
    [InlineData(52.5, TemperatureUnit.C, Doubt.OtherScale, 52.5, 11.39, TemperatureUnit.F)]
    [InlineData(111, TemperatureUnit.F, Doubt.SlippedDigit, 43.89, 11.1, TemperatureUnit.C)]
    [InlineData(-1, TemperatureUnit.F, Doubt.SlippedDigit, -18.33, -18.33, TemperatureUnit.F)]
    [InlineData(-1, TemperatureUnit.C, Doubt.SlippedDigit, -1, -1, TemperatureUnit.C)]
    public void A_slip_is_asked_back_with_its_likeliest_meaning(
        double value, TemperatureUnit unit, Doubt doubt, double asTyped, double understood, TemperatureUnit scale) =>
        Assert.Equal(new WaterVerdict.Doubted(doubt, asTyped, understood, scale), Judge(value, unit));

    [Theory]
    [InlineData(512, TemperatureUnit.C)]
    [InlineData(512, TemperatureUnit.F)]
    [InlineData(111, TemperatureUnit.C)]
    [InlineData(-40, TemperatureUnit.F)]
    [InlineData(double.NaN, TemperatureUnit.C)]
    [InlineData(double.PositiveInfinity, TemperatureUnit.F)]
    public void What_no_water_can_be_is_told_and_never_believed(double value, TemperatureUnit unit) =>
        Assert.Equal(new WaterVerdict.Refused(WaterRefusal.NotWater), Judge(value, unit));

    [Theory]
    [InlineData(22)]
    [InlineData(25)]
    [InlineData(31.9)]
    public void Between_the_scales_it_always_asks(double value)
    {
        foreach (var unit in Enum.GetValues<TemperatureUnit>())
        {
            foreach (var habits in new[] { NewTank, Eleven(), NewTank with { LastWaterC = 25, LastAt = At.AddHours(-1), RoomC = 30 } })
            {
                Assert.Equal(Doubt.BetweenScales, Assert.IsType<WaterVerdict.Doubted>(Judge(value, unit, habits)).Doubt);
            }
        }
    }

    [Theory]
    [InlineData(0, TemperatureUnit.C)]
    [InlineData(21.99, TemperatureUnit.C)]
    [InlineData(32, TemperatureUnit.F)]
    [InlineData(80, TemperatureUnit.F)]
    public void The_ends_of_each_scale_are_believed(double value, TemperatureUnit unit) =>
        Assert.IsType<WaterVerdict.Believed>(Judge(value, unit, NewTank));

    [Theory]
    [InlineData(32, TemperatureUnit.C, Doubt.OtherScale)]
    [InlineData(-0.1, TemperatureUnit.C, Doubt.SlippedDigit)]
    [InlineData(21.9, TemperatureUnit.F, Doubt.OtherScale)]
    [InlineData(80.1, TemperatureUnit.F, Doubt.SlippedDigit)]
    public void Just_beyond_the_ends_it_asks(double value, TemperatureUnit unit, Doubt doubt) =>
        Assert.Equal(doubt, Assert.IsType<WaterVerdict.Doubted>(Judge(value, unit, NewTank)).Doubt);

    [Fact]
    public void The_likeliest_meaning_is_the_one_nearest_to_the_tanks_own_last_reading()
    {
        var cold = Eleven() with { LastWaterC = 5 };

        Assert.Equal(5.2, Assert.IsType<WaterVerdict.Doubted>(Judge(5.2, TemperatureUnit.F, cold)).Understood);
        Assert.Equal(11.11, Assert.IsType<WaterVerdict.Doubted>(Judge(5.2, TemperatureUnit.F)).Understood);
    }

    [Theory]
    [InlineData(18, Doubt.ImpossibleJump)]
    [InlineData(2, Doubt.ImpossibleJump)]
    [InlineData(13, null)]
    [InlineData(5, null)]
    public void A_change_that_no_tank_makes_in_an_hour_is_asked_whichever_way(double celsius, Doubt? doubt) =>
        Assert.Equal(doubt, (Judge(celsius, TemperatureUnit.C, Eleven(hoursAgo: 1)) as WaterVerdict.Doubted)?.Doubt);

    [Theory]
    [InlineData(18)]
    [InlineData(2)]
    public void The_same_change_over_a_day_is_believed(double celsius) =>
        Assert.Equal(new WaterVerdict.Believed(celsius), Judge(celsius, TemperatureUnit.C, Eleven(hoursAgo: 24)));

    [Fact]
    public void A_foam_jacket_makes_a_slower_rise_impossible()
    {
        Assert.IsType<WaterVerdict.Believed>(Judge(15, TemperatureUnit.C, Eleven(hoursAgo: 3)));
        Assert.IsType<WaterVerdict.Doubted>(Judge(15, TemperatureUnit.C, Eleven(hoursAgo: 3) with { Jacket = Jacket.Foam }));
    }

    [Fact]
    public void A_reading_older_than_the_last_is_no_jump() =>
        Assert.Equal(new WaterVerdict.Believed(18), Judge(18, TemperatureUnit.C, Eleven(hoursAgo: -1)));

    [Fact]
    public void A_first_reading_is_no_jump() => Assert.Equal(new WaterVerdict.Believed(2), Judge(2, TemperatureUnit.C, NewTank));

    [Theory]
    [InlineData(32, 0)]
    [InlineData(50, 10)]
    [InlineData(212, 100)]
    public void Fahrenheit_and_celsius_turn_into_each_other(double fahrenheit, double celsius)
    {
        Assert.Equal(celsius, WaterTemperature.ToC(fahrenheit, TemperatureUnit.F), 9);
        Assert.Equal(fahrenheit, WaterTemperature.FromC(celsius, TemperatureUnit.F), 9);
        Assert.Equal(celsius, WaterTemperature.ToC(celsius, TemperatureUnit.C));
    }
}
