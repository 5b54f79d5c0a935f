using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Heat;

public class TauLearningTests
{
    private static readonly Celsius Settles = new(22);

    [Theory]
    [InlineData(6)]
    [InlineData(13)]
    [InlineData(25)]
    public void Clear_readings_take_over_from_the_prior(double trueTau)
    {
        var (mid, sd) = Warming.UpdateTau(13, 0.35, Curve(trueTau, 0, 2, 4, 6), Settles, 0.1);
        Rows.Near(trueTau, mid, 0.06 * trueTau, "tau");
        Assert.InRange(sd, Warming.SmallestTauLogSd, 0.15);
    }

    [Fact]
    public void One_reading_teaches_nothing() => Assert.Equal((13, 0.35), Warming.UpdateTau(13, 0.35, Curve(6, 0), Settles, 0.1));

    [Fact]
    public void A_coarse_thermometer_teaches_less_than_a_fine_one()
    {
        var fine = Warming.UpdateTau(13, 0.35, Curve(6, 0, 1), Settles, 0.1);
        var coarse = Warming.UpdateTau(13, 0.35, Curve(6, 0, 1), Settles, 0.8);
        Assert.True(fine.MidHours < coarse.MidHours && coarse.MidHours < 13);
        Assert.True(fine.LogSd < coarse.LogSd && coarse.LogSd <= 0.35);
    }

    [Fact]
    public void Two_readings_at_once_leave_the_prior_about_where_it_was()
    {
        var (mid, sd) = Warming.UpdateTau(13, 0.35, [(1, new(12)), (1, new(12.2))], Settles, 0.2);
        Assert.Equal(13, mid, 6);
        Assert.Equal(0.35, sd, 3);
    }

    [Fact]
    public void Order_and_clock_of_the_readings_do_not_matter()
    {
        var readings = Curve(8, 0, 3, 5);
        var later = readings.Reverse().Select(r => (r.Hours + 100, r.Water)).ToArray();
        var (a, b) = (Warming.UpdateTau(13, 0.35, readings, Settles, 0.3), Warming.UpdateTau(13, 0.35, later, Settles, 0.3));
        Assert.Equal(a.MidHours, b.MidHours, 9);
        Assert.Equal(a.LogSd, b.LogSd, 9);
    }

    [Fact]
    public void Cooling_water_is_taken_as_very_slow_warming_and_stays_finite()
    {
        var (mid, sd) = Warming.UpdateTau(13, 0.35, [(0, new(12)), (2, new(11.5))], Settles, 0.1);
        Assert.True(mid > 13 && double.IsFinite(mid) && sd > 0);
    }

    [Fact]
    public void A_prior_or_thermometer_without_spread_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Warming.UpdateTau(0, 0.35, [], Settles, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Warming.UpdateTau(13, 0, [], Settles, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Warming.UpdateTau(13, 0.35, [], Settles, 0));
    }

    private static (double Hours, Celsius Water)[] Curve(double tau, params double[] hours) =>
        [.. hours.Select(h => (h, Warming.MostAfter(new(10), h, Settles, tau)))];
}
