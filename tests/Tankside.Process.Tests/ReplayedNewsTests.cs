namespace Tankside.Process.Tests;

/// <summary>When a reading was read and when it arrived are two things, and silence is judged by the school's own calendar.</summary>
public class ReplayedNewsTests
{
    [Fact]
    public async Task An_old_reading_that_arrives_late_does_not_cancel_a_newer_flag()
    {
        var rounds = (await Replayed.CaseAsync("old-reading-arrives-late")).Rounds;

        Assert.All(rounds, round => Assert.Equal(["warming-fast", "warm"], round.Kinds("T1")));
        Assert.All(rounds, round => Assert.Contains("16.1 °C at 14:30", round.Of("T1").First().Reason, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_reading_is_not_known_before_it_has_arrived()
    {
        var rounds = (await Replayed.CaseAsync("reading-not-known-yet")).Rounds;

        // Read at 14:30, it came at 16:00; the one read at 15:00 came at once.
        Assert.Empty(rounds[0].Of("T1"));
        Assert.DoesNotContain("14:30", WarmReason(rounds[1]), StringComparison.Ordinal);
        Assert.Contains("since 14:30", WarmReason(rounds[2]), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_missed_school_days_are_silence_once_the_second_is_over()
    {
        var rounds = (await Replayed.CaseAsync("silent")).Rounds;

        Assert.DoesNotContain("silent", rounds[0].Kinds("MISSED"));
        Assert.Contains("2 school days", Assert.Single(rounds[1].Of("MISSED")).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_room_on_holiday_is_not_silent()
    {
        var holiday = (await Replayed.CaseAsync("silent")).Rounds[2];

        Assert.Empty(holiday.Of("BREAK"));
    }

    [Fact]
    public async Task The_first_school_day_after_a_break_is_silence_at_ten_and_not_five_minutes_before()
    {
        var rounds = (await Replayed.CaseAsync("silent")).Rounds;

        Assert.Empty(rounds[3].Of("BREAK"));
        var silence = Assert.Single(rounds[4].Of("BREAK"));
        Assert.Equal("silent", silence.Kind);
        Assert.Contains("3 days closed", silence.Reason, StringComparison.Ordinal);
        Assert.All(rounds[4].Of("A-STEADY"), steady => Assert.True(steady.Rank > silence.Rank));
    }

    private static string WarmReason(Replayed.Round round) => Assert.Single(round.Of("T1"), f => f.Kind == "warm").Reason;
}
