using Tankside.Hatchery.Eggs;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Tests.Eggs;

public class LotProfileTests
{
    [Theory]
    [InlineData(1, 1, 1, 0)]
    [InlineData(1, 3, 2, 2)]
    [InlineData(1, 4, 2, 3)]
    public void Warmth_counts_from_the_middle_spawning_day_and_several_days_are_a_spread(int from, int to, int middle, double spread)
    {
        var lot = new LotProfile(
            "L1", Species.RainbowTrout, new DateOnly(2026, 12, from), new DateOnly(2026, 12, to), 9, new DateOnly(2027, 1, 10), "R1");

        Assert.Equal(new DateOnly(2026, 12, middle), lot.Fertilised);
        Assert.Equal(spread, lot.SpawnSpreadDays);
    }
}
