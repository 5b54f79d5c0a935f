using CsCheck;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using static Tankside.Hatchery.Tests.Flags.Troubles;

namespace Tankside.Hatchery.Tests.Flags;

public class SharedInTheRoundTests
{
    private static SharedTrouble<string> Shared(int others, int fish = 150, double share = 0.3, double hours = 24) => new(
        "shared",
        new Finding(
            FlagKind.SharedCause,
            Urgency.Today,
            Nine,
            new SharedCauseEvidence(
                LifeStage.Egg, SharedBy.Lot, "L1", [new SharedTank("A1", FlagKind.DieOff, 30, 3, fish)], ["A9"], others, Nine, 1e-4, 1, []),
            Hazard.Around(Nine, hours, share)),
        TankStory.Eggs().Calendar);

    private static IReadOnlyList<RoundEntry<string>> Order(IEnumerable<TroubledTank<string>> tanks, params SharedTrouble<string>[] shared) =>
        MorningRound.Order(tanks, shared, Nine);

    private static string Name(RoundEntry<string> entry) => entry is RoundEntry<string>.OfTank { Call: var call } ? call.Tank.Code : "shared";

    [Fact]
    public void A_shared_cause_stands_by_the_fish_of_tanks_not_in_trouble_yet()
    {
        var entries = Order([Tank("A", 150, Found(share: 0.3)), Tank("B", 150, Found(share: 0.1))], Shared(others: 100, fish: 450));

        Assert.Equal(["A", "shared", "B"], entries.Select(Name));
        var alone = Assert.Single(Order([Tank("X", 100, Found(share: 0.3))]));
        Assert.Equal(alone.ExpectedLoss, entries[1].ExpectedLoss, 9);
        Assert.Equal(450, entries[1].Fish);
    }

    [Fact]
    public void Ranks_run_through_tanks_and_shared_causes()
    {
        var entries = Order([Tank("A", 150, Found(share: 0.3), Found(FlagKind.PumpFault, share: 0.2)), Tank("B", 150, Found(share: 0.01))], Shared(100));

        Assert.Equal([1, 2, 3, 4], entries.SelectMany(e => e switch
        {
            RoundEntry<string>.OfTank t => t.Call.Troubles.Select(x => x.Rank),
            RoundEntry<string>.OfShared s => [s.Trouble.Rank],
            _ => [],
        }));
        Assert.Equal(["A", "shared", "B"], entries.Select(Name));
    }

    [Fact]
    public void Where_all_tanks_are_in_trouble_it_adds_nothing_to_their_own_calls() =>
        Assert.Equal(0, Assert.Single(Order([], Shared(others: 0))).ExpectedLoss);

    [Fact]
    public void Within_half_a_fish_the_tank_with_hours_left_comes_first_and_then_more_fish()
    {
        var equal = Tank("A", 100, Found(share: 0.3));

        Assert.Equal(["shared", "A"], Order([equal], Shared(others: 100, fish: 450)).Select(Name));
        Assert.Equal(["A", "shared"], Order([Tank("A", 100, Found(share: 0.3, left: 8))], Shared(others: 100, fish: 450)).Select(Name));
    }

    [Fact]
    public void It_never_loses_more_than_the_fish_of_its_tanks() =>
        Gen.Select(Gen.Int[0, 20_000], Gen.Int[0, 500], Gen.Double[0, 1], Gen.Double[0.1, 200]).Sample((others, fish, share, hours) =>
            Assert.InRange(Assert.Single(Order([], Shared(others, fish, share, hours))).ExpectedLoss, 0, fish));

    [Fact]
    public void Without_shared_causes_the_calls_are_the_same()
    {
        TroubledTank<string>[] tanks = [Tank("A", 150, Found(share: 0.3)), Tank("B", 150, Found(share: 0.4)), Tank("C", 150)];

        Assert.Equal(MorningRound.Order(tanks, Nine).Select(c => c.Tank.Code), Order(tanks).Select(Name));
    }
}
