using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using static Tankside.Hatchery.Tests.Flags.Troubles;

namespace Tankside.Hatchery.Tests.Flags;

public class SharedCausesTests
{
    private static SharedCauseTank Tank(string code, int dead = 0, string? lot = null, string? run = null) =>
        new() { Code = code, Fish = 150, Lot = lot, Run = run, Dead = dead, Expected = 4.2 };

    private static SharedCauseTank With(SharedCauseTank tank, params FlagKind[] kinds) => tank with
    {
        Troubles = [.. tank.Troubles, .. kinds.Select(k => new StandingTrouble(Found(k), Nine))],
    };

    /// <summary>Eight tanks of lot A, so many of them with a fifth of the eggs dead.</summary>
    private static List<SharedCauseTank> LotA(int dying, int dead = 30) =>
        [.. Enumerable.Range(1, 8).Select(i => Tank($"A{i}", i <= dying ? dead : i % 3, "A", "R1"))];

    /// <summary>Forty tanks of other lots that lose what is usual.</summary>
    private static IEnumerable<SharedCauseTank> Others() =>
        Enumerable.Range(1, 40).Select(i => Tank($"B{i:00}", i % 5, i % 2 == 0 ? "B" : "C", $"R{2 + (i % 4)}"));

    private static IReadOnlyList<Finding> Find(IEnumerable<SharedCauseTank> tanks) => SharedCauses.Find([.. tanks], LimitSet.Defaults);

    private static SharedCauseEvidence One(IEnumerable<SharedCauseTank> tanks) =>
        Assert.IsType<SharedCauseEvidence>(Assert.Single(Find(tanks)).Evidence);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Three_of_eight_tanks_of_a_lot_with_a_fifth_dead_are_one_shared_cause(bool amongOthers)
    {
        var found = One(LotA(3).Concat(amongOthers ? Others() : []));

        Assert.Equal((SharedBy.Lot, "A"), (found.By, found.Code));
        Assert.Equal(["A1", "A2", "A3"], found.Tanks.Select(t => t.Code));
        Assert.Equal(["A4", "A5", "A6", "A7", "A8"], found.Others);
        Assert.Equal((8, 450, 750, 90), (found.Of, found.Fish, found.OtherFish, found.Dead));
        Assert.Equal([new SharedWith(SharedBy.Run, "R1")], found.Also); // The same eight tanks: the lot is the broader fact.
    }

    [Fact]
    public void Also_when_every_tank_of_them_is_flagged_already() =>
        Assert.Equal("A", One(LotA(3).Select(t => t.Dead > 3 ? With(t, FlagKind.DieOff) : t).Concat(Others())).Code);

    [Fact]
    public void A_run_inside_a_lot_is_named_where_its_tanks_only_are_in_trouble()
    {
        var found = One(Enumerable.Range(1, 24).Select(i => Tank($"A{i:00}", i <= 4 ? 30 : 1, "A", $"R{(i - 1) / 6}")));

        Assert.Equal((SharedBy.Run, "R0"), (found.By, found.Code));
        Assert.Equal([new SharedWith(SharedBy.Lot, "A")], found.Also);
    }

    [Fact]
    public void Two_tanks_are_no_pattern() => Assert.Empty(Find(LotA(2).Concat(Others())));

    [Fact]
    public void Every_tank_a_little_is_seen_though_none_stands_out() => Assert.Equal(8, One(LotA(8, dead: 13).Concat(Others())).Tanks.Count);

    [Fact]
    public void A_lot_whose_neighbours_lose_as_many_is_not_to_blame() =>
        Assert.Empty(Find(LotA(3).Concat(Others().Select((t, i) => t with { Dead = i % 8 < 3 ? 30 : 1 }))));

    [Fact]
    public void Troubles_scattered_over_lots_share_nothing() =>
        Assert.Empty(Find(Others().Select((t, i) => i is 3 or 12 or 29 or 34 ? With(t, FlagKind.DieOff) : t)));

    [Fact]
    public void A_hatch_too_early_or_many_dead_on_arrival_count_as_a_lots_trouble()
    {
        var found = One(LotA(0).Select((t, i) => i switch
        {
            1 or 2 or 3 => With(t, FlagKind.EarlyHatch),
            5 => t with { Received = 200, DeadOnArrival = 25 },
            6 => t with { Received = 200, DeadOnArrival = 15 },
            _ => t,
        }));

        Assert.Equal(["A2", "A3", "A4", "A6"], found.Tanks.Select(t => t.Code));
        Assert.Equal([FlagKind.EarlyHatch, FlagKind.EarlyHatch, FlagKind.EarlyHatch, null], found.Tanks.Select(t => t.Kind));
    }

    private static IEnumerable<SharedCauseTank> North(int off, string school = "") => Enumerable.Range(1, 9).Select(i =>
    {
        var tank = Tank($"N{i}") with { Area = i <= 5 ? "north" : "south", School = school.Length > 0 ? school : $"S{i}" };
        return i <= off ? With(tank, FlagKind.PumpFault, FlagKind.ChillerFault) : tank;
    });

    [Fact]
    public void Tanks_of_one_area_that_go_off_together_point_at_the_power()
    {
        var found = One(North(3));

        Assert.Equal((SharedBy.Area, "north", Nine), (found.By, found.Code, found.Since));
        Assert.Equal([FlagKind.ChillerFault, FlagKind.ChillerFault, FlagKind.ChillerFault], found.Tanks.Select(t => t.Kind));
    }

    [Fact]
    public void An_area_is_more_than_one_school() => Assert.Empty(Find(North(3, school: "S1")));

    [Fact]
    public void Troubles_of_different_days_are_no_power_cut() => Assert.Empty(Find(North(3).Select((t, i) =>
        t with { Troubles = [.. t.Troubles.Select(s => s with { Since = Nine.AddHours(-25 * i) })] })));

    [Fact]
    public void A_few_silent_rooms_are_no_power_cut() => Assert.Empty(Find(North(0).Select((t, i) => i < 3 ? Silent(t) : t)));

    [Fact]
    public void Water_and_chiller_batches_are_told_by_their_own_troubles()
    {
        var tanks = Enumerable.Range(1, 20).Select(i => Tank($"T{i:00}") with { Water = $"W{i % 4}", ChillerBatch = $"C{i % 5}" }).ToList();

        var chlorine = One(tanks.Select(t => t.Water == "W1" && t.Code != "T01" ? With(t, FlagKind.Chlorine) : t));
        var iced = One(tanks.Select(t => t.ChillerBatch == "C2" ? With(t, FlagKind.IcedCoil) : t));

        Assert.Equal((SharedBy.Water, "W1", 4, 5), (chlorine.By, chlorine.Code, chlorine.Tanks.Count, chlorine.Of));
        Assert.Equal((SharedBy.ChillerBatch, "C2", 4), (iced.By, iced.Code, iced.Tanks.Count));
    }

    [Fact]
    public void Two_lots_in_trouble_are_two_causes()
    {
        var found = Find(LotA(3).Concat(Others().Select(t => t.Lot == "C" ? t with { Dead = 25 } : t)));

        Assert.Equal(["C", "A"], found.Select(f => ((SharedCauseEvidence)f.Evidence).Code));
    }

    [Fact]
    public void The_urgency_is_that_of_its_worst_trouble_and_at_least_today()
    {
        Assert.Equal(Urgency.Today, Find(LotA(3))[0].Urgency);
        var urgent = new StandingTrouble(Found(FlagKind.DieOff, urgency: Urgency.ActNow, standsOn: Nine.AddHours(2)), Nine);
        var finding = Find(LotA(3).Select((t, i) => i == 0 ? t with { Troubles = [urgent] } : t))[0];

        Assert.Equal((FlagKind.SharedCause, Urgency.ActNow, Nine.AddHours(2)), (finding.Kind, finding.Urgency, finding.StandsOn));
    }

    [Fact]
    public void Evidence_is_compared_by_what_it_says()
    {
        var (one, same) = (One(LotA(3)), One(LotA(3)));

        Assert.Equal(one, same);
        Assert.Equal(one.GetHashCode(), same.GetHashCode());
        Assert.NotEqual(one, One(LotA(4)));
        Assert.NotEqual(one, one with { Tanks = [.. one.Tanks.Reverse()] });
    }

    [Fact]
    public void A_tank_is_taken_in_from_what_it_is_judged_by()
    {
        var story = TankStory.Eggs().Tank(t => t with { Area = "north", Water = "W1" })
            .Seen(-3, 9, new Observation { DeadEggs = 4 }).Seen(0, 9, new Observation { DeadEggs = 20 });
        var tank = SharedCauseTank.Of(story.Record, TankStory.At(0, 12));

        Assert.Equal(("L1", "R1", "north", "W1", 24), (tank.Lot, tank.Run, tank.Area, tank.Water, tank.Dead));
        Assert.Equal(0.002 * 224 * 6, tank.Expected, 9); // Six days since the eggs came.
        Assert.Equal((TankStory.At(0, 9), LifeStage.Egg), (tank.CountedAt, tank.Stage));
        Assert.InRange(tank.LossTail, 0, 0.01);
    }

    private static SharedCauseTank Silent(SharedCauseTank tank) => tank with
    {
        Troubles = [new StandingTrouble(
            Found(FlagKind.Silent) with { Evidence = new SilenceEvidence(LifeStage.Egg, Nine.AddDays(-2), 2, 0, false, 10) }, Nine)],
    };
}
