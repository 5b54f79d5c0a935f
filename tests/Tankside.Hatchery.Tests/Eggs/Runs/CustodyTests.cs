using Tankside.Hatchery.Eggs.Runs;

namespace Tankside.Hatchery.Tests.Eggs.Runs;

public class CustodyTests
{
    private static readonly DateTime Morning = new(2027, 2, 3, 15, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void Custody_balances_and_says_the_same_for_any_order_of_ticks_and_any_number_of_repeats()
    {
        var places = new HashSet<PackPlace>();
        for (var seed = 0; seed < 1000; seed++)
        {
            var dice = new Random(seed);
            var packs = Enumerable.Range(0, 1 + dice.Next(6)).Select(_ => (Id: Guid.NewGuid(), Eggs: dice.Next(1, 400))).ToList();
            var ticks = Enumerable.Range(0, dice.Next(25)).Select(_ => Tick(packs[dice.Next(packs.Count)].Id, (TickDeed)dice.Next(5), dice.Next(6))).ToList();
            var accounts = packs.Select(p => Custody.Of(p.Id, p.Eggs, ticks)).ToList();

            var others = ticks.Concat(ticks.Where(_ => dice.Next(2) == 0)).ToArray();
            dice.Shuffle(others);

            Assert.Equal(accounts.Select(Summary), packs.Select(p => Summary(Custody.Of(p.Id, p.Eggs, others))));
            Assert.Equal(packs.Sum(p => p.Eggs), Custody.Sums(accounts).Values.Sum());
            places.UnionWith(accounts.Select(a => a.Place));
        }

        Assert.Equal(Enum.GetValues<PackPlace>().Order(), places.Order());
    }

    [Fact]
    public void Two_phones_that_tick_the_same_stop_give_one_hand_over_and_the_earlier_counts()
    {
        var pack = Guid.NewGuid();
        var (later, earlier) = (Tick(pack, TickDeed.HandedOver, 9), Tick(pack, TickDeed.HandedOver, 4));

        var account = Custody.Of(pack, 150, [later, earlier]);

        Assert.Equal((PackPlace.AtTheTank, earlier.Id), (account.Place, account.Deciding!.Id));
        Assert.Equal(later.Id, Assert.Single(account.Besides).Id);
        Assert.Equal(150, Custody.Sums([account])[PackPlace.AtTheTank]);
    }

    [Fact]
    public void What_was_a_slip_is_back_in_the_car_until_it_is_ticked_again()
    {
        var pack = Guid.NewGuid();
        List<RunTick> ticks = [Tick(pack, TickDeed.Loaded, 1), Tick(pack, TickDeed.HandedOver, 3), Tick(pack, TickDeed.HandedOver, 4), Tick(pack, TickDeed.TakenBack, 5)];
        Assert.Equal(PackPlace.InACar, Custody.Of(pack, 1, ticks).Place);

        ticks.Add(Tick(pack, TickDeed.ToHolding, 6));
        Assert.Equal(PackPlace.AtTheHoldingTank, Custody.Of(pack, 1, ticks).Place);
    }

    [Theory]
    [InlineData(100, 10, false)]
    [InlineData(100, 11, true)]
    [InlineData(0, 0, false)]
    public void More_than_a_tenth_dead_raises_the_alarm(int eggs, int dead, bool raised) => Assert.Equal(raised, ArrivalAlarm.IsRaised(eggs, dead));

    private static RunTick Tick(Guid stop, TickDeed deed, int minute) =>
        new() { Id = Guid.NewGuid(), StopId = stop, Deed = deed, At = Morning.AddMinutes(minute), ReceivedAt = Morning.AddHours(1) };

    private static string Summary(PackAccount account) => $"{account.Place} {account.Deciding?.Id} {string.Join(' ', account.Besides.Select(t => t.Id))}";
}
