using CsCheck;
using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Tests.Releases;

public class TankBalanceTests
{
    private static readonly Gen<LedgerEntry[]> AnyLedger =
        Gen.Select(Gen.Enum<LedgerKind>(), Gen.Int[-40, 400], Gen.Int[0, 30], (kind, count, hour) => (kind, count, hour)).Array[0, 40]
            .Select(rows => rows.Select((row, i) => new LedgerEntry
            {
                Id = i + 1,
                Kind = row.kind,
                Count = row.kind == LedgerKind.Counted ? Math.Abs(row.count) : row.count,
                At = new DateTime(2027, 1, 15, 0, 0, 0, DateTimeKind.Utc).AddHours(row.hour),
            }).ToArray());

    [Fact]
    public void Every_ledger_balances_open_or_closed() => Gen.Select(AnyLedger, Gen.Bool).Sample((entries, closed) =>
    {
        var b = TankBalance.Of(entries, closed);
        Assert.Equal(
            b.Received + b.TransferredIn,
            b.DeadOnArrival + b.EggLosses + b.AlevinLosses + b.FryLosses + b.PutDown + b.Sampled + b.TransferredOut + b.Released
                + b.StillInTank + b.Unaccounted);
        Assert.True(b.StillInTank >= 0);
        Assert.True(!closed || b.StillInTank == 0);
    });

    [Fact]
    public void The_order_in_which_lines_are_read_changes_nothing() =>
        AnyLedger.SelectMany(l => Gen.Shuffle(l).Select(shuffled => (l, shuffled))).Sample(x =>
            Assert.Equal(TankBalance.Of(x.l, closed: false), TankBalance.Of(x.shuffled, closed: false)));

    [Fact]
    public void Moves_between_tanks_make_and_lose_no_fish() =>
        Gen.Select(Gen.Int[0, 3], Gen.Int[0, 3], Gen.Int[1, 50]).Array[0, 30].Sample(moves =>
        {
            var tanks = Enumerable.Range(0, 4).Select(_ => new Lines().Add(LedgerKind.Received, 500)).ToArray();
            foreach (var (from, to, count) in moves)
            {
                tanks[from].Add(LedgerKind.TransferredOut, count);
                tanks[to].Add(LedgerKind.TransferredIn, count);
            }

            var sum = TankBalance.SumOf(tanks.Select(t => t.Open));
            Assert.Equal(sum.TransferredIn, sum.TransferredOut);
            Assert.Equal(2000, sum.StillInTank + sum.Unaccounted);
        });

    [Fact]
    public void Before_any_count_what_the_lines_leave_is_in_the_tank_and_nothing_is_unaccounted()
    {
        var b = new Lines().Add(LedgerKind.Received, 150).Add(LedgerKind.DeadOnArrival, 2).Add(LedgerKind.EggLoss, 5).Open;

        Assert.Equal((143, 0), (b.StillInTank, b.Unaccounted));
    }

    [Fact]
    public void A_count_shows_what_is_missing_and_later_lines_go_on_from_it()
    {
        var b = new Lines().Add(LedgerKind.Received, 150).Add(LedgerKind.EggLoss, 5).Add(LedgerKind.Counted, 138)
            .Add(LedgerKind.FryLoss, 3).Add(LedgerKind.TransferredIn, 10).Open;

        Assert.Equal((145, 7), (b.StillInTank, b.Unaccounted));
    }

    [Fact]
    public void A_loss_that_happened_before_the_count_but_was_entered_later_explains_a_missing_one()
    {
        var b = new Lines().Add(LedgerKind.Received, 150, hour: 1).Add(LedgerKind.Counted, 140, hour: 9).Add(LedgerKind.EggLoss, 4, hour: 3).Open;

        Assert.Equal((140, 6), (b.StillInTank, b.Unaccounted));
    }

    [Fact]
    public void At_the_same_instant_the_line_entered_later_comes_after_the_count()
    {
        var b = new Lines().Add(LedgerKind.Received, 150, hour: 1).Add(LedgerKind.Counted, 140, hour: 9).Add(LedgerKind.FryLoss, 4, hour: 9).Open;

        Assert.Equal((136, 10), (b.StillInTank, b.Unaccounted));
    }

    [Fact]
    public void More_released_than_ever_came_shows_as_a_negative_rest_and_not_as_fish_owed()
    {
        var b = new Lines().Add(LedgerKind.Received, 100).Add(LedgerKind.Released, 112).Open;

        Assert.Equal((0, -12), (b.StillInTank, b.Unaccounted));
    }

    [Fact]
    public void A_closed_tank_holds_nothing_and_what_was_left_is_unaccounted()
    {
        var lines = new Lines().Add(LedgerKind.Received, 150).Add(LedgerKind.Released, 120).Add(LedgerKind.Counted, 25);

        Assert.Equal((25, 5), (lines.Open.StillInTank, lines.Open.Unaccounted));
        Assert.Equal((0, 30), (lines.Closed.StillInTank, lines.Closed.Unaccounted));
    }

    [Fact]
    public void A_line_taken_back_leaves_the_account_as_if_it_had_never_been()
    {
        var lines = new Lines().Add(LedgerKind.Received, 150).Add(LedgerKind.EggLoss, 50, hour: 4).Add(LedgerKind.Counted, 140, hour: 6)
            .Add(LedgerKind.EggLoss, -50, hour: 4, corrects: 2).Add(LedgerKind.EggLoss, 5, hour: 4);

        Assert.Equal((5, 140, 5), (lines.Open.EggLosses, lines.Open.StillInTank, lines.Open.Unaccounted));
    }

    [Fact]
    public void A_count_taken_back_gives_way_to_the_one_before_it()
    {
        var lines = new Lines().Add(LedgerKind.Received, 150).Add(LedgerKind.Counted, 140).Add(LedgerKind.Counted, 14);
        Assert.Equal((14, 136), (lines.Open.StillInTank, lines.Open.Unaccounted));

        lines.Add(LedgerKind.Counted, -14, hour: 3, corrects: 3);
        Assert.Equal((140, 10), (lines.Open.StillInTank, lines.Open.Unaccounted));
    }

    [Fact]
    public void A_count_of_nought_is_a_count()
    {
        var lines = new Lines().Add(LedgerKind.Received, 150).Add(LedgerKind.Counted, 0);
        Assert.Equal((0, 150), (lines.Open.StillInTank, lines.Open.Unaccounted));

        lines.Add(LedgerKind.Counted, 0, hour: 2, corrects: 2);
        Assert.Equal((150, 0), (lines.Open.StillInTank, lines.Open.Unaccounted));
    }
}
