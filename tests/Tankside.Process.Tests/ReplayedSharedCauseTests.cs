namespace Tankside.Process.Tests;

/// <summary>Troubles that several rooms have in common: one flag names what they share, and rooms with nothing in common get none.</summary>
public class ReplayedSharedCauseTests
{
    [Theory]
    [InlineData("lot-three-of-eight", 1, "lot", "A", new[] { "A2", "A5", "A7" }, "3 of 8 tanks of lot A", "A2 30 dead", "the other 5", "08:")]
    [InlineData("courier-lot", 1, "lot", "C", new[] { "C1", "C2", "C3" }, "3 of 8 tanks of lot C", "delivery run R7", "agency", "09:20")]
    [InlineData("area-power-cut", 1, "area", "north", new[] { "N1", "N2", "N4" }, "3 of 5 tanks in area north", "13:05", "power cut")]
    [InlineData("chiller-batch", 1, "chillerBatch", "C1", new[] { "T2", "T3", "T5" }, "3 of 5 tanks", "batch C1", "T5 iced coil", "08:")]
    [InlineData("water-main", 0, "water", "Alder", new[] { "W1", "W2", "W3" }, "3 of 4 tanks on the water of Alder", "chlorine test", "ask W4")]
    public async Task One_flag_names_what_the_rooms_in_trouble_share(
        string name, int round, string by, string code, string[] tanks, params string[] words)
    {
        var flag = Assert.Single((await Replayed.CaseAsync(name)).Rounds[round].Shared);

        Assert.Equal(new Replayed.Cause(by, code), flag.Cause);
        Assert.Null(flag.Tank);
        Assert.Equal(tanks, flag.Tanks);
        Assert.Equal(tanks.Length * 150, flag.Fish);
        Assert.InRange(flag.ExpectedLoss, 0, flag.Fish);
        Assert.All(words, word => Assert.Contains(word, flag.Reason, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_lot_of_the_courier_is_flagged_by_the_third_room_and_grows_to_all_eight()
    {
        var rounds = (await Replayed.CaseAsync("courier-lot")).Rounds;

        Assert.Equal([0, 3, 8], rounds.Select(r => r.Shared.Sum(f => f.Tanks.Count)));
    }

    [Fact]
    public async Task Before_anything_is_wrong_nothing_is_shared()
    {
        foreach (var name in (string[])["lot-three-of-eight", "area-power-cut", "chiller-batch"])
        {
            Assert.Empty((await Replayed.CaseAsync(name)).Rounds[0].Shared);
        }
    }

    [Fact]
    public async Task Troubles_scattered_over_rooms_with_nothing_in_common_raise_their_own_flags_only()
    {
        var rounds = (await Replayed.CaseAsync("scattered-troubles")).Rounds;

        Assert.Contains("die-off", rounds[^1].Kinds("T10"));
        Assert.Contains("chiller-fault", rounds[^1].Kinds("T07"));
        Assert.All(rounds, round => Assert.Empty(round.Shared));
    }

    [Fact]
    public async Task The_flags_stand_in_the_order_of_their_ranks_and_a_shared_cause_has_one_too()
    {
        var flags = (await Replayed.CaseAsync("area-power-cut")).Rounds[1].Flags;

        Assert.Equal(Enumerable.Range(1, flags.Count), flags.Select(f => f.Rank));
        Assert.Equal(flags.Count, flags.Single(f => f.Kind == "shared-cause").Rank); // Only two rooms are left to save.
    }
}
