using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Readings;

public class ContradictionsTests
{
    [Fact]
    public void None_hatched_goes_with_no_swimmers_no_dead_fish_and_no_food()
    {
        var seen = new Observation { Hatched = Share.None, Swimming = Share.Some, DeadAlevins = 1, DeadFry = 2, Fed = true };

        Assert.Equal(["swimming", "deadAlevins", "deadFry", "fed"], Contradictions.In(seen).Select(c => c.Other));
        Assert.Empty(Contradictions.In(new Observation { Hatched = Share.None, Swimming = Share.None, DeadEggs = 4, DeadAlevins = 0, DeadFry = 0, Fed = false }));
    }

    [Theory]
    [InlineData(Share.Some, Share.Half, true)]
    [InlineData(Share.Most, Share.All, true)]
    [InlineData(Share.Half, Share.Half, false)]
    [InlineData(Share.All, Share.Some, false)]
    [InlineData(null, Share.All, false)]
    [InlineData(Share.Some, null, false)]
    public void No_more_can_swim_than_have_hatched(Share? hatched, Share? swimming, bool contradict) =>
        Assert.Equal(contradict, Contradictions.In(new Observation { Hatched = hatched, Swimming = swimming }).Count == 1);

    [Fact]
    public void What_nobody_looked_at_contradicts_nothing() => Assert.Empty(Contradictions.In(new Observation { DeadAlevins = 3, Fed = true }));
}
