using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Tests.Releases;

/// <summary>Rates, intervals and bounds against examples that others have published.</summary>
public class PublishedRatesTests
{
    /// <summary>Newcombe 1998, Statistics in Medicine 17:857-872, table I, method 3 (from memory; worked out again by another program).</summary>
    [Theory]
    [InlineData(81, 263, 25.53, 36.62)]
    [InlineData(15, 148, 6.24, 16.05)]
    [InlineData(0, 20, 0.00, 16.11)]
    [InlineData(1, 29, 0.61, 17.18)]
    public void The_intervals_are_those_of_the_published_table(int alive, int of, double low, double high)
    {
        var survival = Survival.Of(alive, of);

        Assert.Equal((low, high), (Math.Round(survival.Low!.Value, 2), Math.Round(survival.High!.Value, 2)));
    }

    /// <summary>
    /// Charig and others 1986, British Medical Journal 292:879, open surgery (from memory): 81 of 87 small stones and 192 of 263 large ones, together
    /// 273 of 350, 78 %. The mean of the two percentages would be 83 %.
    /// </summary>
    [Fact]
    public void The_pooled_rate_is_that_of_the_published_sum()
    {
        var pooled = PooledSurvival.Over(
        [
            new TankBalance { Received = 87, Released = 81, Unaccounted = 6 },
            new TankBalance { Received = 263, Released = 192, Unaccounted = 71 },
        ]);

        Assert.Equal((273, 350, 78.0), (pooled.Released, pooled.Of, Math.Round(pooled.Rate.Percent!.Value, 1)));
    }

    /// <summary>
    /// Manski 1995, Identification Problems in the Social Sciences, chapter 2 (from memory): of 106 men 64 were found again, and 21 of them had
    /// found a home. Whatever became of the 42 others, the rate lies between 21/106 = 0.20 and 63/106 = 0.59.
    /// </summary>
    [Fact]
    public void The_bounds_for_the_missing_are_the_published_ones()
    {
        var pooled = PooledSurvival.Over(
        [
            new TankBalance { Received = 64, Released = 21, Unaccounted = 43 },
            new TankBalance { Received = 42, StillInTank = 42 },
        ]);

        Assert.Equal((1, 2), (pooled.Finished, pooled.Supplied));
        Assert.Equal((0.20, 0.59), (Math.Round(pooled.IfRestLost!.Value / 100, 2), Math.Round(pooled.IfRestAllLive!.Value / 100, 2)));
        Assert.Equal(21 / 64.0, pooled.IfRestAverage!.Value / 100, 9);
    }
}
