using Tankside.Hatchery.Kit;

namespace Tankside.Hatchery.Tests.Kit;

public class SpareCoverTests
{
    /// <summary>
    /// The smallest number with 95% cover, worked by hand from the Poisson table: 5 and 10% failures in a season of 22 weeks, four-week repairs.
    /// 25 tanks expect 0.227 and 0.455 away, 100 tanks 0.909 and 1.818.
    /// </summary>
    [Theory]
    [InlineData(25, 0.05, 1)]
    [InlineData(25, 0.10, 2)]
    [InlineData(100, 0.05, 3)]
    [InlineData(100, 0.10, 4)]
    public void Twenty_five_tanks_need_one_or_two_spares_and_a_hundred_three_or_four(int tanks, double failures, int needed) =>
        Assert.Equal(needed, SpareCover.Season(tanks, failures, 4, 22, 1, 0.95).Needed);

    [Fact]
    public void The_cover_is_the_Poisson_probability_of_so_many_or_fewer()
    {
        var cover = SpareCover.Season(100, 0.05, 4, 22, 1, 0.95);

        Assert.Equal(0.909, cover.Expected, 0.001);
        Assert.Equal(0.986, cover.Cover, 0.001);
        Assert.Equal(0.936, cover.CoverOf(2), 0.001);
        Assert.Equal(0.403, cover.CoverOf(0), 0.001);
    }

    [Fact]
    public void Every_depot_gets_one_and_the_cover_told_is_of_that_number()
    {
        var cover = SpareCover.Season(25, 0.05, 4, 22, 3, 0.95);

        Assert.Equal((1, 3), (cover.Needed, cover.Number));
        Assert.Equal(cover.CoverOf(3), cover.Cover);
    }

    [Fact]
    public void Before_a_storm_the_share_that_does_not_come_back_is_away_at_once() =>
        Assert.Equal((2.0, 5), (SpareCover.Storm(20, 0.1, 0, 0.95).Expected, SpareCover.Storm(20, 0.1, 0, 0.95).Number));

    [Fact]
    public void No_tank_needs_no_spare() => Assert.Equal(0, SpareCover.Season(0, 0.1, 4, 22, 0, 0.95).Number);
}
