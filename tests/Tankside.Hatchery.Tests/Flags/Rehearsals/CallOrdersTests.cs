using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rehearsals;

namespace Tankside.Hatchery.Tests.Flags.Rehearsals;

public class CallOrdersTests
{
    private const double Minutes = 12;

    private static IReadOnlyList<MadeUpMorning> Twenty => Mornings.Twenty;

    [Fact]
    public void The_best_order_is_the_one_that_trying_every_order_finds() => Assert.All(Twenty, morning =>
    {
        foreach (var count in new[] { 1, 3, 6 })
        {
            var few = morning with { Tanks = [.. morning.Troubled.Take(count)] };
            var orders = new CallOrders(few, Minutes);

            Assert.Equal(AllOrders([.. few.Tanks.Select(t => t.Code)]).Max(o => orders.Saved(o)), orders.Saved(orders.Best()), 9);
        }
    });

    [Fact]
    public void The_best_order_calls_every_tank_in_trouble_once() => Assert.All(Twenty, morning =>
        Assert.Equal(morning.Troubled.Select(t => t.Code), new CallOrders(morning, Minutes).Best().Order(StringComparer.Ordinal)));

    /// <summary>The figures told in docs/rules.md.</summary>
    [Fact]
    public void The_rounds_own_order_saves_nearly_as_much_as_the_best()
    {
        var shares = Mornings.TwoHundred.Select(m => RehearsalResult.Of(m, [], Minutes)).Select(r => r.Round / r.Best).Order().ToList();

        Assert.True(shares[0] >= 0.95, $"the least is {shares[0]:0.0000}");
        Assert.InRange(shares.Average(), 0.99, 1);
    }

    /// <summary>The figures told in docs/rules.md.</summary>
    [Fact]
    public void Order_matters_the_best_order_backwards_loses_fish_on_every_morning()
    {
        var shares = Mornings.TwoHundred.Select(m => new CallOrders(m, Minutes)).Select(o => o.Saved(o.Best().Reverse()) / o.Saved(o.Best())).Order().ToList();

        Assert.True(shares[^1] < 0.995, $"the most is {shares[^1]:0.0000}");
        Assert.True(shares.Average() < 0.9, $"on average {shares.Average():0.000}");
    }

    [Fact]
    public void A_call_never_saves_more_than_there_are_nor_more_for_coming_later() => Assert.All(Twenty, morning =>
    {
        var orders = new CallOrders(morning, Minutes);
        Assert.All(morning.Tanks, tank =>
        {
            var saved = Enumerable.Range(1, morning.Tanks.Count).Select(place => orders.Saved(tank, place)).ToList();

            Assert.All(saved, s => Assert.InRange(s, 0, tank.Fish));
            Assert.Equal(saved.OrderDescending(), saved);
        });
    });

    [Fact]
    public void A_call_to_a_tank_that_is_well_saves_nothing_and_costs_those_behind_it()
    {
        var morning = Rehearsing.Morning(4711);
        var best = new CallOrders(morning, Minutes).Best();
        var well = morning.Tanks.First(t => t.Findings.Count == 0).Code;

        var (straight, detour) = (RehearsalResult.Of(morning, best, Minutes), RehearsalResult.Of(morning, [well, .. best], Minutes));

        Assert.Equal(straight.Best, straight.Saved, 9);
        Assert.True(detour.Saved < detour.Best - 1);
        Assert.Equal(well, Assert.Single(detour.Tanks, t => t.Idle).Tank.Code);
        Assert.Equal(detour.Best - detour.Saved, detour.Tanks.Sum(t => t.Cost), 9);
    }

    [Fact]
    public void Who_was_called_too_late_or_not_at_all_is_told_with_what_it_cost()
    {
        var morning = Rehearsing.Morning(4711);
        var best = new CallOrders(morning, Minutes).Best();
        List<string> called = [.. best.Skip(1).Take(5), best[0]];

        var result = RehearsalResult.Of(morning, called, Minutes);

        Assert.Equal(best, result.Tanks.Select(t => t.Tank.Code));
        Assert.Equal((6, 1), (result.Tanks[0].Place, result.Tanks[0].BestPlace));
        Assert.True(result.Tanks[0].TooLate && result.Tanks[0].Cost > 1);
        Assert.False(result.Tanks[1].TooLate);
        Assert.True(result.Tanks[1].Cost <= 0, "it was called sooner than the best order does");
        Assert.Equal((null, 0.0, false), (result.Tanks[^1].Place, result.Tanks[^1].Saved, result.Tanks[^1].TooLate));
    }

    [Fact]
    public void Nobody_called_is_nothing_saved() => Assert.Equal(0, RehearsalResult.Of(Rehearsing.Morning(7), [], Minutes).Saved);

    [Fact]
    public void A_call_of_no_length_makes_every_order_the_same()
    {
        var orders = new CallOrders(Rehearsing.Morning(9), 0);

        Assert.Equal(orders.Saved(orders.Best()), orders.Saved(orders.Best().Reverse()), 9);
    }

    private static IEnumerable<List<string>> AllOrders(List<string> codes) => codes.Count == 0
        ? [[]]
        : codes.SelectMany(first => AllOrders([.. codes.Where(c => c != first)]).Select(rest => (List<string>)[first, .. rest]));
}
