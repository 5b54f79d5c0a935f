using CsCheck;
using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Losses;

public class WilsonTests
{
    [Fact]
    public void The_interval_holds_the_share_and_stays_within_zero_and_one() =>
        Gen.Int[1, 3000].SelectMany(of => Gen.Int[0, of].Select(alive => (alive, of))).Sample(seen =>
        {
            var (low, high) = Wilson.Interval(seen.alive, seen.of);
            var share = (double)seen.alive / seen.of;
            Assert.True(low >= 0 && high <= 1 && low <= share && share <= high && low < high);
        });

    [Fact]
    public void Dead_and_alive_mirror_each_other() =>
        Gen.Int[1, 500].SelectMany(of => Gen.Int[0, of].Select(alive => (alive, of))).Sample(seen =>
        {
            var alive = Wilson.Interval(seen.alive, seen.of);
            var dead = Wilson.Interval(seen.of - seen.alive, seen.of);
            Assert.Equal(alive.Low, 1 - dead.High, 1e-12);
        });

    [Fact]
    public void All_alive_reaches_exactly_one_and_none_alive_exactly_zero() => Assert.All(Enumerable.Range(1, 500), of =>
    {
        Assert.Equal(1.0, Wilson.Interval(of, of).High);
        Assert.Equal(0.0, Wilson.Interval(0, of).Low);
    });

    [Fact]
    public void More_fish_narrow_it_and_more_confidence_widens_it()
    {
        static double Width((double Low, double High) i) => i.High - i.Low;
        Assert.True(Width(Wilson.Interval(80, 100)) < Width(Wilson.Interval(8, 10)));
        Assert.True(Width(Wilson.Interval(80, 100, 0.99)) > Width(Wilson.Interval(80, 100, 0.8)));
    }

    // Newcombe 1998, table I, 81 of 263: 0.2553 to 0.3662.
    [Fact]
    public void Ninety_five_percent_is_the_default()
    {
        var (low, high) = Wilson.Interval(81, 263);
        Assert.Equal((0.2553, 0.3662), (Math.Round(low, 4), Math.Round(high, 4)));
        Assert.Equal(Wilson.Interval(81, 263, 0.95), (low, high));
    }

    [Theory]
    [InlineData(0, 0, 0.95)]
    [InlineData(-1, 10, 0.95)]
    [InlineData(11, 10, 0.95)]
    [InlineData(5, 10, 0)]
    [InlineData(5, 10, 1)]
    [InlineData(5, 10, double.NaN)]
    public void Impossible_counts_and_confidences_are_refused(long alive, long of, double confidence) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Wilson.Interval(alive, of, confidence));
}
