using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Tests.Releases;

public class LedgerRulesTests
{
    private static readonly DateTime Now = new(2027, 2, 3, 15, 15, 0, DateTimeKind.Utc), SeasonStarts = new(2026, 9, 1, 6, 0, 0, DateTimeKind.Utc);

    private static IEnumerable<LineRefusal> Check(LedgerKind kind = LedgerKind.EggLoss, int count = 3, DateTime? at = null, bool closed = false) =>
        LedgerRules.Check(kind, count, at ?? Now, Now, SeasonStarts, closed);

    [Fact]
    public void What_is_left_by_subtraction_is_no_line_that_can_be_entered() =>
        Assert.Equal(
            [LedgerKind.EggLoss, LedgerKind.AlevinLoss, LedgerKind.FryLoss, LedgerKind.PutDown, LedgerKind.Sampled, LedgerKind.Counted],
            LedgerRules.EnteredAlone);

    [Fact]
    public void Only_a_count_of_the_living_may_be_nought()
    {
        Assert.Equal([LineRefusal.NothingCounted], Check(count: 0));
        Assert.Empty(Check(LedgerKind.Counted, 0));
        Assert.Equal([LineRefusal.NothingCounted], Check(LedgerKind.Counted, -1));
    }

    [Fact]
    public void A_clock_ten_minutes_fast_is_forgiven_and_a_day_to_come_is_not()
    {
        Assert.Empty(Check(at: Now.AddMinutes(10)));
        Assert.Equal([LineRefusal.InTheFuture], Check(at: Now.AddMinutes(11)));
    }

    [Fact]
    public void Before_the_season_there_was_nothing_to_lose() =>
        Assert.Equal([LineRefusal.BeforeTheSeason], Check(at: SeasonStarts.AddMinutes(-1)));

    [Fact]
    public void Nothing_comes_to_a_closed_tank_but_a_late_loss_may_still_be_told()
    {
        Assert.Equal([LineRefusal.TankClosed], Check(LedgerKind.TransferredIn, closed: true));
        Assert.Equal([LineRefusal.TankClosed], Check(LedgerKind.Counted, closed: true));
        Assert.Empty(Check(LedgerKind.FryLoss, closed: true));
    }

    [Fact]
    public void More_eggs_than_allotted_need_a_word()
    {
        Assert.Empty(LedgerRules.CheckReceipt(100, 2, allotted: 150, received: 50, hasNote: false));
        Assert.Equal([LineRefusal.OverAllotment], LedgerRules.CheckReceipt(101, 2, allotted: 150, received: 50, hasNote: false));
        Assert.Empty(LedgerRules.CheckReceipt(101, 2, allotted: 150, received: 50, hasNote: true));
    }

    [Fact]
    public void No_more_are_dead_on_arrival_than_arrived() =>
        Assert.Equal([LineRefusal.MoreDeadThanCame], LedgerRules.CheckReceipt(10, 11, allotted: 150, received: 0, hasNote: false));

    [Fact]
    public void A_move_needs_two_tanks_and_two_lots_need_a_word()
    {
        var (one, two) = (new Guid(1, 0, 0, new byte[8]), new Guid(2, 0, 0, new byte[8]));
        Assert.Equal([LineRefusal.SameTank], LedgerRules.CheckMove(one, one, sameLot: true, hasNote: false));
        Assert.Equal([LineRefusal.OtherLot], LedgerRules.CheckMove(one, two, sameLot: false, hasNote: false));
        Assert.Empty(LedgerRules.CheckMove(one, two, sameLot: false, hasNote: true));
        Assert.Empty(LedgerRules.CheckMove(one, two, sameLot: true, hasNote: false));
    }

    [Fact]
    public void A_line_is_taken_back_once_and_where_it_came_from()
    {
        Assert.Null(LedgerRules.CheckCorrection(new LedgerEntry(), alreadyCorrected: false));
        Assert.Equal(CorrectionRefusal.AlreadyCorrected, LedgerRules.CheckCorrection(new LedgerEntry(), alreadyCorrected: true));
        Assert.Equal(CorrectionRefusal.IsACorrection, LedgerRules.CheckCorrection(new LedgerEntry { CorrectsId = 1 }, false));
        Assert.Equal(CorrectionRefusal.OfAReading, LedgerRules.CheckCorrection(new LedgerEntry { Reading = Guid.Empty }, false));
        Assert.Equal(CorrectionRefusal.OfARelease, LedgerRules.CheckCorrection(new LedgerEntry { ReleaseId = Guid.Empty }, false));
    }
}
