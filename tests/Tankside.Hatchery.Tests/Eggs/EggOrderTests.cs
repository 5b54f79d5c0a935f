using Tankside.Hatchery.Eggs;
using Tankside.Science.Losses;

namespace Tankside.Hatchery.Tests.Eggs;

public class EggOrderTests
{
    private static SurvivalKnown Fish(double a, double b) => new(new BetaShare(a, b), 1, 10);

    [Fact]
    public void The_order_is_the_smallest_number_of_packs_that_is_sure_enough()
    {
        var known = Fish(60, 40);
        var order = EggOrder.Smallest(300, known, 0.8, 0, 50)!;

        Assert.Equal(0, order.Order % 50);
        Assert.True(EggOrder.ChanceOf(300, order.Order, known) >= 0.8);
        Assert.True(EggOrder.ChanceOf(300, order.Order - 50, known) < 0.8);
        Assert.Equal(EggOrder.ChanceOf(300, order.Order, known), order.Chance, 12);
    }

    [Fact]
    public void The_reserve_comes_on_top_and_does_not_count_towards_the_wish()
    {
        var known = Fish(60, 40);
        var (bare, with) = (EggOrder.Smallest(300, known, 0.8, 0, 1)!, EggOrder.Smallest(300, known, 0.8, 0.1, 1)!);

        Assert.True(with.ForRelease >= bare.ForRelease);
        Assert.InRange(with.Order, bare.Order * 1.1 - 2, bare.Order * 1.1 + 2);
        Assert.Equal(with.Order, with.ForRelease + with.Reserve);
    }

    [Fact]
    public void More_certainty_and_less_knowledge_both_cost_eggs()
    {
        int Order(SurvivalKnown known, double certainty) => EggOrder.Smallest(300, known, certainty, 0, 1)!.Order;

        Assert.True(Order(Fish(60, 40), 0.95) > Order(Fish(60, 40), 0.8));
        Assert.True(Order(Fish(6, 4), 0.8) > Order(Fish(60, 40), 0.8));
        Assert.Null(EggOrder.Smallest(EggOrder.Most, Fish(6, 4), 0.8, 0, 100));
    }

    [Fact]
    public void Without_a_past_the_published_figures_stand_and_little_is_sure()
    {
        var known = SurvivalKnown.From([]);

        Assert.Equal(0, known.Tanks);
        Assert.Equal(0.606, known.Share.Mean, 3);
        Assert.Equal(4, known.Share.A + known.Share.B, 6);
    }

    [Fact]
    public void Fish_of_one_tank_die_together_so_they_count_for_less()
    {
        // Twenty tanks, half of which lose nearly all: a hundred fish of one say about as much as one tank.
        var uneven = SurvivalKnown.From([.. Enumerable.Range(0, 20).Select(i => new PastTank(100, i % 2 == 0 ? 10 : 90))]);
        var even = SurvivalKnown.From([.. Enumerable.Range(0, 20).Select(i => new PastTank(100, i % 2 == 0 ? 45 : 55))]);

        // Ratio estimator by hand: 20/19 x 20 x 40^2 / 2000^2 over 0.25/2000 = 67.4; 20/19 x 20 x 5^2 / 2000^2 over 0.25/2000 = 1.05.
        Assert.Equal(67.37, uneven.Alike, 2);
        Assert.Equal(1.05, even.Alike, 2);
        Assert.True(EggOrder.Smallest(1000, uneven, 0.8, 0, 1)!.Order > EggOrder.Smallest(1000, even, 0.8, 0, 1)!.Order);
    }

    [Theory]
    [InlineData(6000, 0.10, 100, 6600)]
    [InlineData(5990, 0.10, 100, 6600)]
    [InlineData(6001, 0.10, 100, 6700)]
    [InlineData(0, 0.10, 100, 0)]
    [InlineData(150, 0, 1, 150)]
    public void What_is_allotted_is_ordered_with_its_reserve_in_whole_packs(int allotted, double reserve, int pack, int order) =>
        Assert.Equal(order, AllotmentRules.Order(allotted, reserve, pack));

    [Fact]
    public void A_55_gallon_tank_has_room_for_about_110() =>
        // trade figure: a 55 gal tank (208 L) holds about 110 fingerlings; common practice, no source.
        Assert.Equal(110, AllotmentRules.Capacity(208.2, EggSettings.PerLitre.Default));

    [Fact]
    public void A_tank_gets_one_lot_on_a_school_day_while_it_is_open()
    {
        var (one, other) = (Guid.NewGuid(), Guid.NewGuid());

        Assert.Empty(AllotmentRules.Check(150, one, [], closed: false, schoolDay: true));
        Assert.Empty(AllotmentRules.Check(150, one, [one], closed: false, schoolDay: null));
        Assert.Equal([AllotmentRefusal.OtherLotIsIn], AllotmentRules.Check(150, one, [other], closed: false, schoolDay: true));
        Assert.Equal([AllotmentRefusal.NoLot, AllotmentRefusal.Closed, AllotmentRefusal.SchoolIsShut], AllotmentRules.Check(150, null, [], closed: true, schoolDay: false));
        Assert.Equal([AllotmentRefusal.Negative], AllotmentRules.Check(-1, one, [], closed: false, schoolDay: true));
    }
}
