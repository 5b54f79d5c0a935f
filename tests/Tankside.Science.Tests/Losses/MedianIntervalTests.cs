using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Losses;

public class MedianIntervalTests
{
    /// <summary>The usual table of the sign test's 95% interval for a median (Conover, from memory): which values in order are its ends.</summary>
    [Theory]
    [InlineData(6, 1, 6)]
    [InlineData(9, 2, 8)]
    [InlineData(10, 2, 9)]
    [InlineData(15, 4, 12)]
    [InlineData(20, 6, 15)]
    [InlineData(30, 10, 21)]
    public void The_ends_are_the_tabled_places_in_the_order(int n, int low, int high)
    {
        var found = MedianInterval.Of([.. Enumerable.Range(1, n).Reverse().Select(i => (double)i)])!.Value;

        Assert.Equal(((n + 1) / 2.0, low, high), (found.Median, found.Low, found.High));
    }

    [Fact]
    public void Five_values_have_a_median_and_no_interval() => Assert.Equal((3, null, null), MedianInterval.Of([5, 1, 3, 2, 4]));

    [Fact]
    public void Of_nothing_nothing_is_said() => Assert.Null(MedianInterval.Of([]));
}
