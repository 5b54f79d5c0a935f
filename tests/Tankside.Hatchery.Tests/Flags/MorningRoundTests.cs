using CsCheck;
using Tankside.Hatchery.Flags;
using static Tankside.Hatchery.Tests.Flags.Troubles;

namespace Tankside.Hatchery.Tests.Flags;

public class MorningRoundTests
{
    private static IReadOnlyList<Call<string>> Order(params TroubledTank<string>[] tanks) => MorningRound.Order(tanks, Nine);

    private static string[] Codes(params TroubledTank<string>[] tanks) => [.. Order(tanks).Select(c => c.Tank.Code)];

    private static TroubledTank<string> With(TroubledTank<string> tank, bool newTeacher = false, double km = 0) =>
        tank with { Tank = tank.Tank with { NewTeacher = newTeacher, DistanceKm = km } };

    /// <summary>A trouble that costs a tank of 200 so many fish by not calling at nine.</summary>
    private static Finding Costs(double fish, double? left = null)
    {
        var wholeTank = Order(Tank("X", 200, Found(share: 1)))[0].ExpectedLoss;
        return Found(share: fish / wholeTank, left: left);
    }

    [Fact]
    public void The_loss_is_what_is_lost_till_tomorrow_less_what_is_lost_till_half_past_nine()
    {
        var call = Assert.Single(Order(Tank("A", 200, Found(hours: 24, share: 0.5))));

        // Log-normal, middle 24 h, 80% from 8 to 72 h: 49.02% by 23.5 h, next to none by half an hour; half of the 200 are at stake.
        Assert.Equal(49.02, call.ExpectedLoss, 2);
        Assert.Equal(200, call.Fish);
    }

    [Fact]
    public void A_tank_without_troubles_is_not_called() => Assert.Equal(["B"], Codes(Tank("A", 200), Tank("B", 200, Found())));

    [Fact]
    public void The_tank_whose_call_saves_most_is_first_and_ranks_run_through_all_troubles()
    {
        var calls = Order(
            Tank("A", 200, Found(share: 0.1)),
            Tank("B", 200, Found(FlagKind.PumpFault, share: 0.8, urgency: Urgency.ActNow), Found(FlagKind.Warm, share: 0.1)));

        Assert.Equal(["B", "A"], calls.Select(c => c.Tank.Code));
        Assert.Equal([1, 2, 3], calls.SelectMany(c => c.Troubles).Select(t => t.Rank));
    }

    [Fact]
    public void A_tank_whose_loss_no_call_can_change_any_more_is_last() =>
        Assert.Equal(["B", "A"], Codes(Tank("A", 1000, Found(hours: 0.001, share: 1)), Tank("B", 50, Found(hours: 24, share: 0.3))));

    [Fact]
    public void Within_half_a_fish_the_one_with_less_time_is_first()
    {
        Assert.Equal(["B", "A"], Codes(Tank("A", 200, Costs(5.4, left: 9)), Tank("B", 200, Costs(5, left: 2))));
        Assert.Equal(["A", "B"], Codes(Tank("A", 200, Costs(5.6, left: 9)), Tank("B", 200, Costs(5, left: 2))));
        Assert.Equal(["B", "A"], Codes(Tank("A", 200, Costs(5)), Tank("B", 200, Costs(5, left: 70))));
    }

    [Fact]
    public void A_tie_is_counted_from_the_first_of_its_run() =>
        Assert.Equal(
            ["B", "A", "C"],
            Codes(Tank("A", 200, Costs(5.9, left: 9)), Tank("B", 200, Costs(5.5, left: 2)), Tank("C", 200, Costs(5.2, left: 1))));

    [Fact]
    public void Then_the_one_with_more_fish() => Assert.Equal(["B", "A"], Codes(Tank("A", 200, Costs(5)), Tank("B", 205, Costs(5))));

    [Fact]
    public void Then_the_new_teacher_and_then_the_farther_room()
    {
        Assert.Equal(["B", "A"], Codes(With(Tank("A", 200, Costs(5)), km: 40), With(Tank("B", 200, Costs(5)), newTeacher: true, km: 3)));
        Assert.Equal(["B", "A"], Codes(With(Tank("A", 200, Costs(5)), km: 3), With(Tank("B", 200, Costs(5)), km: 40)));
    }

    [Fact]
    public void At_last_the_order_is_that_of_the_codes_whatever_order_they_come_in()
    {
        var (a, b) = (Tank("A", 200, Costs(5)), Tank("B", 200, Costs(5)));

        Assert.Equal(["A", "B"], Codes(a, b));
        Assert.Equal(["A", "B"], Codes(b, a));
    }

    [Fact]
    public void Signs_of_one_danger_count_once()
    {
        var one = Order(Tank("A", 200, Found(FlagKind.Warm, share: 0.4)))[0];
        var three = Order(Tank("A", 200, Found(FlagKind.Warm, share: 0.4), Found(FlagKind.ChillerFault, share: 0.2), Found(FlagKind.WarmingFast, share: 0.4)))[0];

        Assert.Equal(one.ExpectedLoss, three.ExpectedLoss, 9);
    }

    [Fact]
    public void Different_dangers_take_their_share_of_what_the_other_leaves()
    {
        var (heat, air) = (Found(FlagKind.Warm, hours: 24, share: 0.8), Found(FlagKind.PumpFault, hours: 24, share: 0.8));
        var single = Order(Tank("A", 200, heat))[0].ExpectedLoss / 200;

        Assert.Equal(200 * (1 - ((1 - single) * (1 - single))), Order(Tank("A", 200, heat, air))[0].ExpectedLoss, 2);
    }

    [Fact]
    public void The_first_sentence_is_the_most_urgent_then_the_one_with_least_time()
    {
        var calls = Order(Tank(
            "A",
            200,
            Found(FlagKind.DieOff, share: 0.9),
            Found(FlagKind.Warm, share: 0.3, left: 8),
            Found(FlagKind.WarmingFast, share: 0.3, left: 3),
            Found(FlagKind.IcedCoil, share: 0.1, urgency: Urgency.ActNow)));

        Assert.Equal(["IcedCoil", "WarmingFast", "Warm", "DieOff"], Assert.Single(calls).Troubles.Select(t => t.Key));
        Assert.Equal(3, calls[0].HoursLeft!.Value.Mid);
    }

    [Fact]
    public void Hours_left_are_those_of_now()
    {
        var calls = MorningRound.Order([Tank("A", 200, Found(left: 8))], Nine.AddHours(3));

        Assert.Equal(5, calls[0].HoursLeft!.Value.Mid, 9);
        Assert.Equal(calls[0].HoursLeft, calls[0].Troubles[0].HoursLeft);
    }

    [Fact]
    public void The_loss_is_never_above_the_fish_and_is_the_sum_of_its_parts()
    {
        var trouble = Gen.Select(Gen.Enum<FlagKind>(), Gen.Double[0.01, 500], Gen.Double[0, 1], (kind, hours, share) => Found(kind, hours, share));
        Gen.Select(trouble.Array[1, 6], Gen.Int[1, 5000], Gen.Int[-30, 400]).Sample((troubles, fish, hours) =>
        {
            var call = Assert.Single(MorningRound.Order([Tank("A", fish, troubles)], Nine.AddHours(hours)));

            Assert.InRange(call.ExpectedLoss, 0, fish);
            Assert.Equal(call.ExpectedLoss, call.Troubles.Sum(t => t.ExpectedLoss), 1e-6);
            Assert.All(call.Troubles, t => Assert.True(t.ExpectedLoss >= 0));
        });
    }
}
