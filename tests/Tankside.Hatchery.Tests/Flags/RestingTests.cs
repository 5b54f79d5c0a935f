using Tankside.Hatchery.Flags;
using static Tankside.Hatchery.Tests.Flags.Troubles;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>A flag that a person lets rest comes back by itself: when the promise is due, when the wait is over, or when it gets worse.</summary>
public class RestingTests
{
    private static Flag Resting(DateTime? promise = null, DateTime? wait = null, Urgency urgency = Urgency.Today)
    {
        var flag = Flagged(Found(urgency: urgency));
        (flag.PromiseDue, flag.WaitUntil) = (promise, wait);
        return flag;
    }

    private static IReadOnlyList<FlagChange> At(DateTime now, Flag flag, params Finding[] findings) =>
        Reconcile.Compare(findings, [flag], [], _ => false, now);

    [Fact]
    public void A_promise_that_is_not_due_lets_it_rest() => Assert.Empty(At(Nine.AddHours(2), Resting(promise: Nine.AddHours(3)), Found()));

    [Fact]
    public void A_promise_falls_due_on_its_minute_with_the_trouble_still_there()
    {
        var flag = Resting(promise: Nine.AddHours(3));

        Assert.Equal([new FlagChange.RestOver(flag, RestEnd.PromiseDue)], At(Nine.AddHours(3), flag, Found()));
    }

    [Fact]
    public void A_wait_is_over_at_its_end()
    {
        var flag = Resting(wait: Nine.AddHours(1));

        Assert.Equal([new FlagChange.RestOver(flag, RestEnd.WaitOver)], At(Nine.AddHours(1), flag, Found()));
    }

    [Fact]
    public void What_gets_worse_does_not_go_on_resting()
    {
        var flag = Resting(wait: Nine.AddHours(5));
        var worse = Found(urgency: Urgency.ActNow);

        Assert.Contains(new FlagChange.RestOver(flag, RestEnd.Worse), At(Nine.AddHours(1), flag, worse));
    }

    [Fact]
    public void What_is_over_clears_and_no_promise_falls_due()
    {
        var flag = Resting(promise: Nine.AddHours(3));

        Assert.Equal([new FlagChange.Clear(flag)], At(Nine.AddHours(4), flag));
    }

    [Fact]
    public void A_promise_counts_before_a_wait()
    {
        var flag = Resting(promise: Nine.AddHours(3), wait: Nine.AddHours(1));

        Assert.True(flag.RestsAt(Nine.AddHours(2)));
        Assert.False(flag.RestsAt(Nine.AddHours(3)));
    }
}
