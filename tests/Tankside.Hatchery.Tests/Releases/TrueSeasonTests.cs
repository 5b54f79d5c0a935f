using CsCheck;
using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Tests.Releases;

/// <summary>
/// Made-up seasons in which it is known where every fish went: four tanks, eggs, losses found and not found, moves, counts, releases, in any
/// order. The ledger sees only what people saw; what it says is held against the truth.
/// </summary>
public class TrueSeasonTests
{
    private const int Tanks = 4;

    private enum Deed
    {
        Receive,
        FoundDead,
        EatenUnseen,
        PutDown,
        Sample,
        Move,
        Count,
        Release,
    }

    private static readonly Gen<Season> AnySeason =
        Gen.Select(Gen.Enum<Deed>(), Gen.Int[0, Tanks - 1], Gen.Int[0, Tanks - 1], Gen.Int[1, 60]).Array[0, 60].Select(Season.Of);

    [Fact]
    public void The_contracts_identity_holds_for_every_row_open_and_closed_in_whatever_order_lines_are_entered() =>
        Gen.Select(AnySeason, Gen.Bool, Gen.Int).Sample((season, closed, seed) =>
        {
            foreach (var lines in season.Lines)
            {
                var shuffled = lines.ToArray();
                new Random(seed).Shuffle(shuffled);
                var b = TankBalance.Of(shuffled, closed);
                Assert.Equal(
                    b.Received + b.TransferredIn,
                    b.DeadOnArrival + b.EggLosses + b.AlevinLosses + b.FryLosses + b.PutDown + b.Sampled + b.TransferredOut + b.Released + b.StillInTank + b.Unaccounted);
                Assert.Equal(TankBalance.Of(lines, closed), b);
            }
        });

    [Fact]
    public void Moves_make_and_lose_no_fish() => AnySeason.Sample(season =>
    {
        var sum = TankBalance.SumOf(season.Lines.Select(l => TankBalance.Of(l, closed: true)));

        Assert.Equal(sum.TransferredIn, sum.TransferredOut);
        Assert.Equal(sum.TransferredIn, season.Moves.Sum(m => m.Count));
    });

    [Fact]
    public void What_nobody_saw_is_what_is_unaccounted_for_once_all_is_over() => AnySeason.Sample(season =>
    {
        for (var tank = 0; tank < Tanks; tank++)
        {
            Assert.Equal(season.Unseen[tank] + season.Living[tank], TankBalance.Of(season.Lines[tank], closed: true).Unaccounted);
        }
    });

    [Fact]
    public void Rooms_whose_fish_were_together_have_one_survival_and_none_is_of_nought_or_two_hundred_percent() => AnySeason.Sample(season =>
    {
        var totals = season.Totals();
        var pools = Groupings.Pools(totals);

        Assert.Equal(Tanks, pools.Sum(p => p.Tanks.Count));
        Assert.All(season.Moves, m => Assert.Single(pools, p => p.Tanks.Any(t => t.Tank == m.From) && p.Tanks.Any(t => t.Tank == m.To)));
        foreach (var pool in pools.Where(p => p.Balance.Released > 0))
        {
            Assert.InRange(pool.Pooled.Rate.Percent!.Value, double.Epsilon, 100);
            Assert.NotNull(pool.Pooled.Rate.Low);
        }
    });

    /// <summary>Counting on one's own, a room that held everybody's fish over a holiday would have released twice what it got.</summary>
    [Fact]
    public void A_room_that_took_anothers_fish_in_for_good_is_not_told_by_what_it_received_alone()
    {
        var totals = new SeasonTotals("P", "S",
        [
            Row("A", new Lines().Add(LedgerKind.Received, 100).Add(LedgerKind.TransferredOut, 100).Closed),
            Row("B", new Lines().Add(LedgerKind.Received, 100).Add(LedgerKind.TransferredIn, 100).Add(LedgerKind.Released, 200).Closed),
        ])
        { Moves = [new FishMove("A", "B", 100)] };

        Assert.Null(totals.Tanks[0].Survival.Percent);
        Assert.Equal(100, totals.Tanks[1].Survival.Percent);
        Assert.Equal(100, Assert.Single(Groupings.Pools(totals)).Pooled.Rate.Percent);
    }

    /// <summary>Of a true ledger nothing is unaccounted below nought; a miscount can make it so, and it is shown.</summary>
    [Fact]
    public void More_counted_out_than_in_stays_a_negative_number_in_every_sum() =>
        Gen.Select(Gen.Int[1, 500], Gen.Int[1, 500]).Sample((received, more) =>
        {
            var b = new Lines().Add(LedgerKind.Received, received).Add(LedgerKind.Released, received + more).Closed;

            Assert.Equal(-more, b.Unaccounted);
            Assert.Equal(-more, TankBalance.SumOf([b, new TankBalance()]).Unaccounted);
            Assert.Null(Survival.EggToRelease(b).Low);
        });

    private static TankTotals Row(string tank, TankBalance balance) => new("School", "Room", tank, "L", "rainbow-trout", balance, null, null, null, null);

    /// <summary>The truth beside what was written down of it.</summary>
    private sealed class Season
    {
        public List<LedgerEntry>[] Lines { get; } = [.. Enumerable.Range(0, Tanks).Select(_ => new List<LedgerEntry>())];

        public int[] Living { get; } = new int[Tanks];

        public int[] Unseen { get; } = new int[Tanks];

        public List<FishMove> Moves { get; } = [];

        private int line;

        public static Season Of((Deed Deed, int Tank, int Other, int Count)[] deeds)
        {
            var season = new Season();
            foreach (var (deed, tank, other, count) in deeds)
            {
                season.Do(deed, tank, other, count);
            }

            return season;
        }

        public SeasonTotals Totals() => new("P", "S", [.. Lines.Select((l, i) => Row($"T{i}", TankBalance.Of(l, closed: true)))]) { Moves = Moves };

        private void Do(Deed deed, int tank, int other, int count)
        {
            var fish = deed == Deed.Receive ? count : Math.Min(count, Living[tank]);
            if (deed == Deed.Count)
            {
                Write(tank, LedgerKind.Counted, Living[tank]);
                return;
            }

            if (fish == 0 || (deed == Deed.Move && tank == other))
            {
                return;
            }

            Living[tank] += deed == Deed.Receive ? fish : -fish;
            switch (deed)
            {
                case Deed.EatenUnseen:
                    Unseen[tank] += fish;
                    break;
                case Deed.Move:
                    Living[other] += fish;
                    Write(tank, LedgerKind.TransferredOut, fish);
                    Write(other, LedgerKind.TransferredIn, fish);
                    Moves.Add(new FishMove($"T{tank}", $"T{other}", fish));
                    break;
                default:
                    Write(tank, KindOf(deed), fish);
                    break;
            }
        }

        private static LedgerKind KindOf(Deed deed) => deed switch
        {
            Deed.Receive => LedgerKind.Received,
            Deed.FoundDead => LedgerKind.AlevinLoss,
            Deed.PutDown => LedgerKind.PutDown,
            Deed.Sample => LedgerKind.Sampled,
            Deed.Release => LedgerKind.Released,
            Deed.EatenUnseen or Deed.Move or Deed.Count => throw new ArgumentOutOfRangeException(nameof(deed)),
            _ => throw new ArgumentOutOfRangeException(nameof(deed)),
        };

        private void Write(int tank, LedgerKind kind, int count) =>
            Lines[tank].Add(new LedgerEntry { Id = ++line, Kind = kind, Count = count, At = new DateTime(2027, 1, 1, 0, 0, 0, DateTimeKind.Utc).AddHours(line) });
    }
}
