using Tankside.Hatchery.Flags;
using static Tankside.Hatchery.Tests.Flags.Troubles;

namespace Tankside.Hatchery.Tests.Flags;

public class ReconcileTests
{
    private static readonly Guid Someone = new("0193a000-0000-7000-8000-000000000004");

    private static IReadOnlyList<FlagChange> Compare(Finding[] findings, Flag[]? open = null, Flag[]? settled = null, bool classSaid = false) =>
        Reconcile.Compare(findings, open ?? [], settled ?? [], _ => classSaid, Nine);

    private static Flag Settled(Settlement how, DateTime standsOn)
    {
        var flag = Flagged(Found(standsOn: standsOn), FlagState.Settled);
        flag.Settlement = how;
        return flag;
    }

    [Fact]
    public void A_new_trouble_is_opened()
    {
        var found = Found();

        Assert.Equal([new FlagChange.Open(found)], Compare([found]));
    }

    [Fact]
    public void The_same_trouble_is_not_opened_again() => Assert.Empty(Compare([Found()], [Flagged(Found())]));

    [Fact]
    public void Another_kind_is_opened_beside_it_and_the_first_let_be()
    {
        var cold = Found(FlagKind.PumpFault);

        Assert.Equal([new FlagChange.Open(cold)], Compare([Found(), cold], [Flagged(Found())]));
    }

    [Fact]
    public void Fresher_numbers_update_it_and_newer_facts_are_told()
    {
        var flag = Flagged(Found());
        var (numbers, newer) = (Found(celsius: 13.2), Found(celsius: 13.4, standsOn: Nine.AddHours(1)));

        Assert.Equal([new FlagChange.Update(flag, numbers, Told: false)], Compare([numbers], [flag]));
        Assert.Equal([new FlagChange.Update(flag, newer, Told: true)], Compare([newer], [flag]));
    }

    [Fact]
    public void Another_urgency_is_told()
    {
        var flag = Flagged(Found());
        var worse = Found(urgency: Urgency.ActNow);

        Assert.Equal([new FlagChange.Update(flag, worse, Told: true)], Compare([worse], [flag]));
    }

    [Fact]
    public void A_trouble_that_was_said_over_and_is_back_is_told()
    {
        var flag = Flagged(Found());
        flag.SaidOverAt = Nine.AddHours(1);

        Assert.Equal([new FlagChange.Update(flag, Found(), Told: true)], Compare([Found()], [flag]));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_trouble_for_today_clears_itself_whoever_said_so(bool classSaid)
    {
        var flag = Flagged(Found());

        Assert.Equal([new FlagChange.Clear(flag)], Compare([], [flag], classSaid: classSaid));
    }

    [Theory]
    [InlineData(Urgency.ActNow, false)]
    [InlineData(Urgency.ActNow, true)]
    [InlineData(Urgency.Today, true)]
    public void A_class_alone_does_not_clear_what_cannot_wait_or_what_is_taken(Urgency urgency, bool taken)
    {
        var flag = Flagged(Found(urgency: urgency));
        flag.TakenBy = taken ? Someone : null;

        Assert.Equal([new FlagChange.AwaitAdult(flag)], Compare([], [flag], classSaid: true));
        Assert.Equal([new FlagChange.Clear(flag)], Compare([], [flag], classSaid: false));
    }

    [Fact]
    public void An_adult_is_waited_for_once()
    {
        var flag = Flagged(Found(urgency: Urgency.ActNow));
        flag.SaidOverAt = Nine.AddHours(1);

        Assert.Empty(Compare([], [flag], classSaid: true));
    }

    [Fact]
    public void Who_had_the_last_word_is_asked_for_each_flag()
    {
        var (warm, pump) = (Flagged(Found(urgency: Urgency.ActNow)), Flagged(Found(FlagKind.PumpFault, urgency: Urgency.ActNow)));

        Assert.Equal(
            [new FlagChange.AwaitAdult(warm), new FlagChange.Clear(pump)],
            Reconcile.Compare([], [warm, pump], [], flag => flag.Kind == FlagKind.Warm, Nine));
    }

    [Fact]
    public void What_a_person_closed_is_raised_again_only_by_newer_facts()
    {
        var newer = Found(standsOn: Nine.AddMinutes(1));

        Assert.Empty(Compare([Found()], settled: [Settled(Settlement.Closed, Nine)]));
        Assert.Empty(Compare([Found(standsOn: Nine.AddDays(-1))], settled: [Settled(Settlement.Closed, Nine)]));
        Assert.Equal([new FlagChange.Open(newer)], Compare([newer], settled: [Settled(Settlement.Closed, Nine)]));
    }

    [Fact]
    public void What_cleared_itself_is_raised_again_by_the_same_facts() =>
        Assert.Single(Compare([Found()], settled: [Settled(Settlement.Cleared, Nine)]));

    [Fact]
    public void A_closed_trouble_of_another_kind_holds_nothing_back() =>
        Assert.Single(Compare([Found(FlagKind.PumpFault)], settled: [Settled(Settlement.Closed, Nine)]));
}
