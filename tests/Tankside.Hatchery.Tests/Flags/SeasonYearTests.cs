using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Years;
using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Tests.Flags;

public class SeasonYearTests
{
    private static readonly Guid A = new(1, 0, 0, new byte[8]), B = new(2, 0, 0, new byte[8]);

    private static readonly DateTime At = new(2027, 2, 3, 8, 0, 0, DateTimeKind.Utc);

    private static readonly SeasonTotals Totals = new("P", "2026-27", []);

    private static PastFlag Flag(Guid tank, FlagKind kind = FlagKind.ChillerFault, TroubleCause? cause = TroubleCause.ChillerDead, bool falseAlarm = false, double unseen = 6, double acted = 2) =>
        new(tank, kind, At, At.AddHours(10), At.AddHours(-unseen), At.AddHours(acted), cause, falseAlarm);

    [Fact]
    public void Each_loss_counts_once_to_its_tanks_trouble_or_to_none()
    {
        var year = SeasonYear.Of(Totals, 2, [Flag(A), Flag(A, FlagKind.Warm, cause: null)],
        [
            new PastLoss(A, At.AddHours(-20), 3), new PastLoss(A, At.AddHours(30), 4), new PastLoss(A, At.AddDays(3), 5), new PastLoss(B, At, 6),
        ]);

        Assert.Equal(18, year.Lost);
        Assert.Equal([new LossOfCause(TroubleCause.ChillerDead, 7, 1), new LossOfCause(null, 11, 2)], year.Losses);
    }

    [Fact]
    public void A_false_alarm_is_no_failure_and_no_cause()
    {
        var year = SeasonYear.Of(Totals, 20, [Flag(A), Flag(B, falseAlarm: true)], [new PastLoss(B, At, 6)]);

        Assert.Equal((1, 20, 5.0), (year.ChillerTanks, year.Supplied, year.ChillerRate.Percent!.Value));
        Assert.Null(Assert.Single(year.Losses).Cause);
    }

    [Fact]
    public void Two_failures_in_one_tank_are_one_tank_that_failed() =>
        Assert.Equal(1, SeasonYear.Of(Totals, 20, [Flag(A), Flag(A)], []).ChillerTanks);

    [Fact]
    public void Times_are_medians_of_those_known_with_how_many_that_are()
    {
        var year = SeasonYear.Of(Totals, 2,
            [Flag(A, unseen: 4, acted: 1), Flag(A, unseen: 10, acted: 3), Flag(B) with { LookBefore = null, ActedAt = null }, Flag(B, FlagKind.Silent, unseen: 90, acted: 8)], []);

        Assert.Equal((7, 2, 3), (year.HoursUnseen.Median, year.HoursUnseen.Known, year.HoursUnseen.Of));
        Assert.Equal((3, 3, 4), (year.HoursToAct.Median, year.HoursToAct.Known, year.HoursToAct.Of));
    }

    [Fact]
    public void A_season_without_anything_says_nothing_it_does_not_know()
    {
        var year = SeasonYear.Of(Totals, 0, [], []);

        Assert.Null(year.ChillerRate.Percent);
        Assert.Null(year.HoursToAct.Median);
        Assert.Empty(year.Losses);
    }
}
