namespace Tankside.Process.Tests;

/// <summary>
/// Troubles as they were told by those who had them, replayed: each is called by its right name, gives its numbers, and is called before a
/// tank that stands steady at 54 °F. That tank's code comes first in the alphabet, so that it is not last by accident.
/// </summary>
public class ReplayedTroubleTests
{
    private const string Steady = "A-STEADY";

    [Theory]
    [InlineData("warming-fast", "warming-fast", "16.1 °C", "14:45", "an hour", "20.0 °C", "142 fish", "15:15")]
    [InlineData("warm", "warm", "15.6 °C", "Tue 08:10", "15.0 °C", "150 fish")]
    [InlineData("cold", "cold", "1.5 °C", "08:10", "2.0 °C", "150 fish")]
    [InlineData("iced-coil-seen", "iced-coil", "Ice", "08:10", "3.3 °C", "150 fish")]
    [InlineData("iced-coil-not-looked-at", "iced-coil", "3.3 °C", "08:10", "10.0 °C", "150 fish")]
    [InlineData("chiller-off-still-cold", "chiller-fault", "08:10", "10.6 °C", "15.0 °C", "150 fish")]
    [InlineData("chiller-off-and-warming", "warming-fast", "11.9 °C", "08:10", "an hour", "15.0 °C", "150 fish")]
    [InlineData("pump-fault", "pump-fault", "still", "08:10", "hours", "150 fish")]
    [InlineData("power-cut-with-big-fish", "pump-fault", "together", "17:35", "hours", "110 fish")]
    [InlineData("die-off", "die-off", "13 dead", "3 Feb", "usual")]
    [InlineData("ammonia", "ammonia", "0.046 mg/L", "1.5", "pH 8.2", "11.0 °C", "0.016")]
    [InlineData("late-hatch", "late-hatch", "17 Jan", "25 Jan", "9 days", "150 fish")]
    [InlineData("silent-after-a-bad-reading", "silent", "1 school day", "Tue 14:00", "13.6 °C", "150 fish")]
    public async Task A_trouble_is_named_says_its_numbers_and_comes_before_a_steady_tank(string name, string kind, params string[] numbers)
    {
        var round = (await Replayed.CaseAsync(name)).Rounds[^1];

        var first = round.Flags[0];
        Assert.Equal("T1", first.Tank);
        Assert.Equal(kind, first.Kind);
        Assert.All(numbers, number => Assert.Contains(number, first.Reason, StringComparison.Ordinal));
        Assert.All(round.Of(Steady), steady => Assert.True(steady.Rank > round.Of("T1").Max(f => f.Rank)));
    }

    [Fact]
    public async Task Water_that_was_well_this_morning_raises_nothing_before_the_afternoon()
    {
        var morning = (await Replayed.CaseAsync("warming-fast")).Rounds[0];

        Assert.Empty(morning.Of("T1"));
    }

    [Fact]
    public async Task Cold_water_behind_an_iced_coil_is_not_called_too_cold() =>
        Assert.DoesNotContain("cold", (await Replayed.CaseAsync("iced-coil-seen")).Rounds[0].Kinds("T1"));

    [Fact]
    public async Task A_chiller_said_to_be_off_stands_beside_the_water_that_warms() =>
        Assert.Contains("chiller-fault", (await Replayed.CaseAsync("chiller-off-and-warming")).Rounds[0].Kinds("T1"));

    [Fact]
    public async Task A_coil_that_has_thawed_and_water_that_falls_are_no_longer_flagged_as_iced_or_rising()
    {
        var rounds = (await Replayed.CaseAsync("iced-coil-thawed")).Rounds;

        Assert.Contains("iced-coil", rounds[0].Kinds("T1"));
        Assert.Equal(["warm"], rounds[1].Kinds("T1"));
    }

    [Fact]
    public async Task A_lot_that_dies_in_every_room_does_not_hide_itself()
    {
        var rounds = (await Replayed.CaseAsync("die-off-in-every-room")).Rounds;

        Assert.Equal(["E1", "E2", "E3"], DieOffs(rounds[0]));
        Assert.Equal(["E1", "E2", "E3", "E4", "E5", "E6", "E7", "E8"], DieOffs(rounds[1]));
    }

    [Fact]
    public async Task A_trouble_of_yesterday_that_nobody_has_looked_at_since_still_comes_before_a_steady_tank()
    {
        var morningAfter = (await Replayed.CaseAsync("everything-stopped-yesterday")).Rounds[^1];

        Assert.Equal("T1", morningAfter.Flags[0].Tank);
    }

    [Fact]
    public async Task In_no_round_of_any_case_are_more_fish_lost_than_the_tank_holds()
    {
        foreach (var name in Replayed.Cases)
        {
            foreach (var tank in (await Replayed.CaseAsync(name)).Rounds.SelectMany(r => r.Flags.GroupBy(f => f.Tank)))
            {
                // Each number is rounded to a hundredth of a fish.
                Assert.InRange(tank.Sum(f => f.ExpectedLoss), 0, tank.First().Fish + (0.005 * tank.Count()));
                Assert.All(tank, f => Assert.True(f.HoursLeft is null || (f.HoursLeft.Low <= f.HoursLeft.Mid && f.HoursLeft.Mid <= f.HoursLeft.High)));
            }
        }
    }

    private static IEnumerable<string?> DieOffs(Replayed.Round round) =>
        round.Flags.Where(f => f.Kind == "die-off").Select(f => f.Tank).Order(StringComparer.Ordinal);
}
