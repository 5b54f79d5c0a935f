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
    [InlineData("coil-dropped-then-rose", "warming-fast", "13.1 °C", "08:10", "an hour", "15.0 °C", "looks like an iced coil", "150 fish")]
    [InlineData("chiller-off-and-warming", "warming-fast", "11.9 °C", "08:10", "an hour", "15.0 °C", "150 fish")]
    [InlineData("pump-fault", "pump-fault", "still", "08:10", "hours", "150 fish")]
    [InlineData("power-cut-with-big-fish", "pump-fault", "together", "17:35", "hours", "110 fish")]
    [InlineData("die-off", "die-off", "13 dead", "3 Feb", "usual")]
    [InlineData("ammonia", "ammonia", "0.046 mg/L", "1.5", "pH 8.2", "11.0 °C", "0.016")]
    [InlineData("late-hatch", "late-hatch", "17 Jan", "25 Jan", "9 days", "150 fish")]
    [InlineData("silent-after-a-bad-reading", "silent", "1 school day", "Tue 14:00", "13.6 °C", "150 fish")]
    [InlineData("low-oxygen", "low-oxygen", "6.0 mg/L", "08:10", "8.0 at 06:10", "passes 4 mg/L about 10:10", "150 fish")]
    [InlineData("nitrite", "nitrite", "0.3 mg/L as N", "08:10", "0.25", "two tests in a row", "150 fish")]
    [InlineData("chlorine-by-test", "chlorine", "0.5 mg/L", "08:10", "chloramine", "ammonia", "150 fish")]
    [InlineData("gasping-after-water-change", "chlorine", "gasp at 08:10", "30% water change at Tue 14:30", "strong air", "150 fish")]
    [InlineData("ph-sag", "ph-sag", "pH 6.4", "Tue 08:10", "6.5", "0.3 a week from 7.0", "150 fish")]
    [InlineData("fungus", "fungus", "White fluff at 08:10", "since Tue 08:10", "taken out", "150 fish")]
    [InlineData("contradictory", "contradictory", "Some swim (08:10)", "none hatched (08:10)", "150 fish")]
    [InlineData("stuck-thermometer", "stuck-thermometer", "10.0 °C", "15 times", "14 Jan", "whole °F", "150 fish")]
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
    public async Task Eggs_in_the_pump_a_foul_tank_and_a_refill_far_too_cold_are_each_told_in_turn()
    {
        var rounds = (await Replayed.CaseAsync("eggs-in-the-pump-then-a-cold-refill")).Rounds;

        Assert.Equal(["pump-fault"], rounds[0].Kinds("T1"));
        Assert.Empty(rounds[1].Kinds("T1"));
        Assert.Equal(["die-off", "ammonia"], rounds[2].Kinds("T1")); // foul water asks for a test
        var cold = Assert.Single(rounds[3].Of("T1"), f => f.Kind == "cold");
        Assert.All(["6.0 °C", "11:00", "10.0 °C", "08:10", "60%", "how cold the refill was"], words => Assert.Contains(words, cold.Reason, StringComparison.Ordinal));
        Assert.All(rounds[3].Of(Steady), steady => Assert.True(steady.Rank > cold.Rank));
    }

    [Fact]
    public async Task Fish_that_gasp_after_a_water_change_have_minutes_to_hours()
    {
        var first = (await Replayed.CaseAsync("gasping-after-water-change")).Rounds[0].Flags[0];

        Assert.InRange(first.HoursLeft!.Low, 0.1, 1);
        Assert.InRange(first.ExpectedLoss, 75, 150);
    }

    [Fact]
    public async Task Deaths_after_hatch_in_good_water_are_asked_about_before_a_steady_tank()
    {
        var round = (await Replayed.CaseAsync("metals")).Rounds[0];
        var metals = Assert.Single(round.Of("T1"), f => f.Kind == "metals");

        Assert.All(["6 alevins", "1 Feb", "26 Jan", "pH 7.2", "copper or zinc", "?"], words => Assert.Contains(words, metals.Reason, StringComparison.Ordinal));
        Assert.Equal("T1", round.Flags[0].Tank);
    }

    [Fact]
    public async Task One_high_step_of_a_nitrite_kit_asks_for_a_second_test()
    {
        var nitrite = (await Replayed.CaseAsync("nitrite")).Rounds[0].Flags[0];

        Assert.Contains("test again", nitrite.Reason, StringComparison.Ordinal);
        Assert.Null(nitrite.HoursLeft);
    }

    [Fact]
    public async Task Fourteen_equal_days_are_not_yet_a_stuck_thermometer() =>
        Assert.Empty((await Replayed.CaseAsync("stuck-thermometer")).Rounds[0].Of("T1"));

    [Fact]
    public async Task Cold_water_behind_an_iced_coil_is_not_called_too_cold() =>
        Assert.DoesNotContain("cold", (await Replayed.CaseAsync("iced-coil-seen")).Rounds[0].Kinds("T1"));

    [Fact]
    public async Task A_chiller_said_to_be_off_stands_beside_the_water_that_warms() =>
        Assert.Contains("chiller-fault", (await Replayed.CaseAsync("chiller-off-and-warming")).Rounds[0].Kinds("T1"));

    [Fact]
    public async Task The_reason_names_the_part_only_where_one_clearly_leads()
    {
        Assert.All((await Replayed.CaseAsync("chiller-off-and-warming")).Rounds[0].Of("T1").Where(f => f.Kind is "warming-fast" or "chiller-fault"), flag =>
            Assert.Contains("looks like the chiller itself", flag.Reason, StringComparison.Ordinal));
        Assert.All((await Replayed.CaseAsync("warming-fast")).Rounds[^1].Of("T1"), flag =>
            Assert.DoesNotContain("looks like", flag.Reason, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Swim_up_days_before_the_holidays_is_told_in_November_and_not_of_fry_that_eat_by_then()
    {
        var round = (await Replayed.CaseAsync("first-feeding-before-the-holidays")).Rounds[0];

        var flag = Assert.Single(round.Flags, f => f.Kind == "feeding-near-break");
        Assert.Equal("T1", flag.Tank);
        Assert.All(["Swim-up", "Dec", "19 Dec", "3 Jan", "%", "150 fish"], words => Assert.Contains(words, flag.Reason, StringComparison.Ordinal));
        Assert.DoesNotContain(round.Flags, f => f.Kind is "tally" or "not-ready" or "report-late");
    }

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
        Assert.All(rounds, round => Assert.Equal(new Replayed.Cause("lot", "A"), Assert.Single(round.Shared).Cause));
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
            foreach (var tank in (await Replayed.CaseAsync(name)).Rounds.SelectMany(r => r.Flags.GroupBy(f => f.Tank ?? f.Reason)))
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
