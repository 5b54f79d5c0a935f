using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Tests.Releases;

public class SeasonTotalsTests
{
    /// <summary>
    /// 81 of 263: 0.2553 to 0.3662. Source: Newcombe 1998, Statistics in Medicine 17:857-872, table I, method 3 (second-hand copy).
    /// </summary>
    [Fact]
    public void The_interval_of_81_of_263_is_the_published_one()
    {
        var survival = Survival.Of(81, 263);

        Assert.Equal(30.798, survival.Percent!.Value, 3);
        Assert.Equal(25.53, survival.Low!.Value, 0.005);
        Assert.Equal(36.62, survival.High!.Value, 0.005);
    }

    [Fact]
    public void Survival_is_released_out_of_what_came_and_was_not_moved_on()
    {
        var b = new TankBalance { Received = 200, TransferredIn = 20, TransferredOut = 70, Released = 120, Unaccounted = 30 };

        Assert.Equal(80, Survival.EggToRelease(b).Percent);
    }

    [Fact]
    public void None_released_of_a_finished_tank_is_a_result_and_not_a_blank() =>
        Assert.Equal(0, Survival.EggToRelease(new TankBalance { Received = 150, EggLosses = 150 }).Percent);

    [Theory]
    [InlineData(150, 0, 100, 10)]
    [InlineData(0, 0, 0, 0)]
    [InlineData(150, 150, 0, 0)]
    public void Survival_is_blank_while_fish_are_in_the_tank_and_without_a_denominator(int received, int movedOut, int released, int still) =>
        Assert.Equal(Survival.Unknown, Survival.EggToRelease(
            new TankBalance { Received = received, TransferredOut = movedOut, Released = released, StillInTank = still }));

    [Fact]
    public void More_released_than_came_has_a_percentage_and_no_interval()
    {
        var survival = Survival.EggToRelease(new TankBalance { Received = 100, Released = 112, Unaccounted = -12 });

        Assert.Equal((112.0, null, null), (survival.Percent, survival.Low, survival.High));
    }

    /// <summary>
    /// By hand: finished 90/100 and 30/200, so 120/300 = 40 % (the mean of the two percentages would be 52.5 %). Still swimming: 100 eggs.
    /// If they are lost 120/400 = 30 %; if they end alike 40 %.
    /// </summary>
    [Fact]
    public void The_pool_is_the_sum_over_the_finished_tanks_with_bounds_for_the_rest()
    {
        var pooled = PooledSurvival.Over(
        [
            new TankBalance { Received = 100, Released = 90, FryLosses = 10 },
            new TankBalance { Received = 200, Released = 30, EggLosses = 150, Unaccounted = 20 },
            new TankBalance { Received = 100, StillInTank = 100 },
            new TankBalance(),
        ]);

        Assert.Equal((2, 3, 120, 300), (pooled.Finished, pooled.Supplied, pooled.Released, pooled.Of));
        Assert.Equal(40, pooled.Rate.Percent!.Value, 9);
        Assert.Equal(30, pooled.IfRestLost!.Value, 9);
        Assert.Equal(40, pooled.IfRestAverage!.Value, 9);
    }

    /// <summary>By hand: finished 20/100; unfinished 80 of 100 let go, 10 left. Lost: 100/200 = 50 %. They cannot end at 20 % any more.</summary>
    [Fact]
    public void What_the_unfinished_have_released_already_cannot_be_lost_again()
    {
        var pooled = PooledSurvival.Over(
        [
            new TankBalance { Received = 100, Released = 20, EggLosses = 80 },
            new TankBalance { Received = 100, Released = 80, EggLosses = 10, StillInTank = 10 },
        ]);

        Assert.Equal(20, pooled.Rate.Percent!.Value, 9);
        Assert.Equal(50, pooled.IfRestLost!.Value, 9);
        Assert.Equal(50, pooled.IfRestAverage!.Value, 9);
    }

    /// <summary>By hand: a holding tank of 100 passes 60 on to a room that releases 50: the pool is 50/100, not 50/160.</summary>
    [Fact]
    public void Fish_moved_between_finished_tanks_are_counted_where_they_ended()
    {
        var pooled = PooledSurvival.Over(
        [
            new TankBalance { Received = 100, TransferredOut = 60, EggLosses = 40 },
            new TankBalance { TransferredIn = 60, Released = 50, FryLosses = 10 },
        ]);

        Assert.Equal((50, 100), (pooled.Released, pooled.Of));
        Assert.Equal(50, pooled.Rate.Percent!.Value, 9);
        Assert.Equal(pooled.Rate.Percent, pooled.IfRestLost);
    }

    [Fact]
    public void Before_a_tank_has_finished_nothing_is_said_of_the_average()
    {
        var pooled = PooledSurvival.Over([new TankBalance { Received = 100, Released = 30, StillInTank = 70 }]);

        Assert.Equal((0, 1), (pooled.Finished, pooled.Supplied));
        Assert.Null(pooled.Rate.Percent);
        Assert.Null(pooled.IfRestAverage);
        Assert.Equal(30, pooled.IfRestLost!.Value, 9);
    }
}
