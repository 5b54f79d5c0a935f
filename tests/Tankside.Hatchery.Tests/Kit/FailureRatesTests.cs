using Tankside.Hatchery.Kit;

namespace Tankside.Hatchery.Tests.Kit;

public class FailureRatesTests
{
    private static readonly DateTime Start = new(2027, 1, 4, 12, 0, 0, DateTimeKind.Utc);

    private static readonly KitSpot Tank = new(KitPlace.Tank, Guid.NewGuid()), Depot = new(KitPlace.Depot, Guid.NewGuid());

    private readonly List<KitItem> items = [];
    private readonly List<KitAct> acts = [];

    private KitItem New(string make)
    {
        items.Add(new KitItem { Id = Guid.NewGuid(), Serial = $"{items.Count}", Make = make });
        return items[^1];
    }

    private void Do(KitItem item, double week, KitActKind kind, KitSpot to, KitCondition? after = null) =>
        acts.Add(KitRules.Write(item, kind, to, Guid.NewGuid(), null, Start.AddDays(7 * week), null, after));

    private FailureRate[] Rates(double week) => [.. FailureRates.Of(items, acts, i => i.Make, 22, Start.AddDays(7 * week))];

    [Fact]
    public void Only_weeks_at_work_in_a_tank_count_and_only_failures_there()
    {
        var item = New("Fenwick");
        Do(item, 0, KitActKind.Registered, Depot);
        Do(item, 2, KitActKind.Out, Tank);
        Do(item, 12, KitActKind.Fault, Tank);
        Do(item, 14, KitActKind.RepairSent, KitSpot.AtTheRepairer);
        Do(item, 18, KitActKind.Repaired, Depot);
        Do(item, 19, KitActKind.Fault, Depot);
        Do(item, 19.5, KitActKind.Repaired, Depot);
        Do(item, 20, KitActKind.Out, Tank);

        var rate = Assert.Single(Rates(21));

        Assert.Equal((1, 1), (rate.Pieces, rate.Failures));
        Assert.Equal(11, rate.TankWeeks, 1e-9);
        // One in eleven weeks is two in a season of 22; Garwood's ends of one event are 0.0253 and 5.572.
        Assert.Equal(2, rate.PerSeason!.Value.Mid, 1e-9);
        Assert.Equal(2 * 0.0253, rate.PerSeason.Value.Low, 0.001);
        Assert.Equal(2 * 5.572, rate.PerSeason.Value.High, 0.001);
    }

    [Fact]
    public void A_swap_for_a_fault_is_a_failure_and_a_swap_of_a_working_piece_is_none()
    {
        var (failed, well) = (New("Fenwick"), New("Fenwick"));
        Do(failed, 0, KitActKind.Out, Tank);
        Do(failed, 5, KitActKind.Swapped, Depot, KitCondition.Faulty);
        Do(well, 0, KitActKind.Out, Tank);
        Do(well, 5, KitActKind.Swapped, Depot, KitCondition.Working);

        var rate = Assert.Single(Rates(9));

        Assert.Equal((2, 10, 1), (rate.Pieces, Math.Round(rate.TankWeeks, 9), rate.Failures));
    }

    [Fact]
    public void Makes_stand_apart_the_worst_first_and_what_never_worked_is_left_out()
    {
        var (good, bad, idle) = (New("Good"), New("Bad"), New("Idle"));
        Do(good, 0, KitActKind.Out, Tank);
        Do(bad, 0, KitActKind.Out, Tank);
        Do(bad, 4, KitActKind.Fault, Tank);
        Do(idle, 0, KitActKind.Registered, Depot);

        Assert.Equal(["Bad", "Good"], Rates(10).Select(r => r.Group));
        Assert.Equal(0, Rates(10)[1].PerSeason!.Value.Low);
        Assert.True(Rates(10)[1].PerSeason!.Value.High > 0);
    }

    [Fact]
    public void An_act_entered_before_its_time_takes_no_weeks_away()
    {
        var item = New("Fenwick");
        Do(item, 5, KitActKind.Out, Tank);
        Do(item, 3, KitActKind.Fault, Tank);

        Assert.Equal(0, Assert.Single(Rates(9)).TankWeeks);
        Assert.Null(Assert.Single(Rates(9)).PerSeason);
    }
}
