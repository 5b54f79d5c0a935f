using Tankside.Hatchery.Kit;

namespace Tankside.Hatchery.Tests.Kit;

public class KitRulesTests
{
    private static readonly DateTime At = new(2027, 2, 3, 15, 0, 0, DateTimeKind.Utc);

    private static readonly KitTank Tank = new(Guid.NewGuid(), 208), Other = new(Guid.NewGuid(), 208);

    private static readonly KitSpot Depot = new(KitPlace.Depot, Guid.NewGuid()), InTank = new(KitPlace.Tank, Tank.Id);

    private static KitItem Chiller(KitSpot at = default, KitKind kind = KitKind.Chiller)
    {
        var item = new KitItem { Id = Guid.NewGuid(), Serial = "CH-1", Make = "any", Kind = kind };
        Do(item, KitActKind.Registered, at);
        return item;
    }

    private static KitAct Do(KitItem item, KitActKind kind, KitSpot? to = null, KitCondition? after = null) =>
        KitRules.Write(item, kind, to ?? KitRules.Default(item, kind), Guid.NewGuid(), null, At, null, after);

    [Fact]
    public void From_depot_to_tank_to_fault_to_repair_and_back_every_line_begins_where_the_one_before_ended()
    {
        var item = Chiller(Depot);
        KitAct[] acts =
        [
            Do(item, KitActKind.Out, InTank), Do(item, KitActKind.Fault), Do(item, KitActKind.In, Depot), Do(item, KitActKind.Cleaned),
            Do(item, KitActKind.RepairSent), Do(item, KitActKind.Repaired, Depot), Do(item, KitActKind.Retired),
        ];

        Assert.Equal([2, 3, 4, 5, 6, 7, 8], acts.Select(a => a.Number));
        Assert.All(acts.Zip(acts.Skip(1)), pair => Assert.Equal((pair.First.ToSpot, pair.First.After), (pair.Second.FromSpot, pair.Second.Before)));
        Assert.Equal([KitPlace.Tank, KitPlace.Tank, KitPlace.Depot, KitPlace.Depot, KitPlace.Repair, KitPlace.Depot, KitPlace.Retired], acts.Select(a => a.ToPlace));
        Assert.Equal((null, null, null), (item.InTankId, item.DepotId, item.WithPersonId));
    }

    [Fact]
    public void A_piece_in_a_tank_goes_into_no_other()
    {
        var item = Chiller(InTank);

        Assert.Equal(KitRefusal.InATankAlready, KitRules.WhyNot(item, KitActKind.Out, Other));
        Assert.Equal(KitRefusal.InATankAlready, KitRules.WhyNot(item, KitActKind.Stored, null));
    }

    [Theory]
    [InlineData(KitActKind.Fault)]
    [InlineData(KitActKind.RepairSent)]
    [InlineData(KitActKind.Retired)]
    public void What_does_not_work_is_not_lent_out(KitActKind before)
    {
        var item = Chiller(Depot);
        Do(item, before);

        Assert.NotNull(KitRules.WhyNot(item, KitActKind.Out, Tank));
        Assert.DoesNotContain(KitActKind.Out, KitRules.PossibleWith(item));
    }

    [Fact]
    public void One_promised_to_another_tank_is_refused_and_the_promise_ends_when_it_is_kept()
    {
        var item = Chiller(Depot);
        (item.ReservedForTankId, item.ReservedBy, item.ReservedAt) = (Tank.Id, Guid.NewGuid(), At);

        Assert.Equal(KitRefusal.PromisedElsewhere, KitRules.WhyNot(item, KitActKind.Out, Other));
        Assert.Null(KitRules.WhyNot(item, KitActKind.Out, Tank));
        Do(item, KitActKind.Out, InTank);
        Assert.Equal((null, null, null), (item.ReservedForTankId, item.ReservedBy, item.ReservedAt));
    }

    [Fact]
    public void A_promised_spare_that_breaks_down_promises_nothing_any_more()
    {
        var item = Chiller(Depot);
        item.ReservedForTankId = Tank.Id;
        Do(item, KitActKind.Fault);

        Assert.Null(item.ReservedForTankId);
    }

    [Fact]
    public void What_comes_out_of_a_tank_is_to_be_cleaned_until_it_is_or_goes_in_again()
    {
        var item = Chiller(InTank);
        Do(item, KitActKind.In, Depot);
        Assert.True(item.ToClean);
        Assert.Null(KitRules.WhyNot(item, KitActKind.Cleaned, null));

        Do(item, KitActKind.Cleaned);
        Assert.False(item.ToClean);
        Assert.Equal(KitRefusal.NothingToClean, KitRules.WhyNot(item, KitActKind.Cleaned, null));
        Assert.Equal(Depot, item.Spot);
    }

    [Fact]
    public void A_swap_asks_for_another_working_piece_of_the_kind_that_fits()
    {
        var old = Chiller(InTank);
        var small = Chiller(Depot);
        small.MostLitres = 100;
        var broken = Chiller(Depot);
        Do(broken, KitActKind.Fault);

        Assert.Null(KitRules.WhyNoSwap(old, Chiller(Depot), Tank));
        Assert.Equal(KitRefusal.TheSamePiece, KitRules.WhyNoSwap(old, old, Tank));
        Assert.Equal(KitRefusal.OtherKind, KitRules.WhyNoSwap(old, Chiller(Depot, KitKind.Pump), Tank));
        Assert.Equal(KitRefusal.TooSmall, KitRules.WhyNoSwap(old, small, Tank));
        Assert.Equal(KitRefusal.DoesNotWork, KitRules.WhyNoSwap(old, broken, Tank));
        Assert.Equal(KitRefusal.InATankAlready, KitRules.WhyNoSwap(old, Chiller(InTank), Tank));
        Assert.Equal(KitRefusal.InNoTank, KitRules.WhyNoSwap(old, Chiller(Depot), Other));
    }

    [Fact]
    public void A_retired_piece_takes_only_a_note()
    {
        var item = Chiller(Depot);
        Do(item, KitActKind.Retired);

        Assert.Equal([KitActKind.Noted], KitRules.PossibleWith(item));
    }

    /// <summary>Any order of allowed acts: the piece is in one place at most, and in none while it is in repair or retired.</summary>
    [Fact]
    public void Whatever_is_done_the_piece_is_in_one_place_at_most()
    {
        for (var seed = 0; seed < 200; seed++)
        {
            var random = new Random(seed);
            var item = Chiller(Depot);
            for (var step = 0; step < 30; step++)
            {
                KitActKind[] possible = [.. KitRules.PossibleWith(item)];
                var kind = possible[random.Next(possible.Length)];
                var to = KitRules.GoesTo(kind) is { } place ? new KitSpot(place, Guid.NewGuid()) : KitRules.Default(item, kind);
                var act = Do(item, kind, to);

                Assert.True(new[] { item.InTankId, item.DepotId, item.WithPersonId }.Count(p => p is not null) <= (item.Condition is KitCondition.InRepair or KitCondition.Retired ? 0 : 1));
                Assert.Equal(item.Spot, act.ToSpot);
            }
        }
    }
}
