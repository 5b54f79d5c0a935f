using Tankside.Hatchery.Kit;

namespace Tankside.Portal.Demo;

/// <summary>What became of the demo's kit before the day it is seeded: lent out before the eggs, three chillers of one batch failed and swapped.</summary>
public sealed class DemoKitHistory(Guid programme, DateOnly today)
{
    /// <summary>Its own, so that the season's chances stay as they are.</summary>
    private readonly DemoDice dice = new(41);

    private readonly List<object> rows = [];

    public IReadOnlyList<object> Rows => rows;

    public DateOnly Today => today;

    public Guid Id() => dice.Id();

    public void LentOut(KitItem item, KitDepot from, DemoTank tank)
    {
        StoredAt(item, from, tank.DeliveredOn.AddDays(-40));
        Tell(item, KitActKind.Out, InTank(tank), tank.DeliveredOn.AddDays(-10), "set up with the teacher, cold for a week before the eggs");
        Tell(item, KitActKind.LoanSigned, InTank(tank), tank.DeliveredOn.AddDays(-9), null);
    }

    public void StoredAt(KitItem item, KitDepot depot) => StoredAt(item, depot, today.AddDays(-150));

    /// <summary>Three of the older batch broke down: one is in repair, one waits for it, one is beyond it.</summary>
    public void TellOfFailures(IReadOnlyList<(KitItem Item, DemoTank Tank)> atTanks, KitItem inRepair, KitDepot shed)
    {
        Fail(atTanks, inRepair, shed, number: 12, daysAgo: 9, "compressor hums and does not start");
        Tell(inRepair, KitActKind.RepairSent, KitSpot.AtTheRepairer, today.AddDays(-7), "with the retired technician at Ferry Landing; three weeks, he says");
        Fail(atTanks, Old("CX-01"), shed, number: 4, daysAgo: 13, "warm, fan does not turn");
        var beyond = Old("CX-02");
        Fail(atTanks, beyond, shed, number: 40, daysAgo: 60, "gas is out");
        Tell(beyond, KitActKind.Retired, KitSpot.Gone, today.AddDays(-50), "not worth a new compressor; fan and probe kept as parts");
    }

    private KitItem Old(string serial)
    {
        var item = new KitItem
        {
            Id = Id(),
            ProgrammeId = programme,
            Kind = KitKind.Chiller,
            Serial = serial,
            Make = "Fenwick quarter horse, drop-in",
            Batch = "Fenwick 2019-B",
            MostLitres = 230,
        };
        rows.Add(item);
        return item;
    }

    /// <summary>The old piece stood in the tank first and the one that is there now came by the swap.</summary>
    private void Fail(IReadOnlyList<(KitItem Item, DemoTank Tank)> atTanks, KitItem old, KitDepot shed, int number, int daysAgo, string why)
    {
        var (fresh, tank) = atTanks.First(k => k.Tank.Number == number && k.Item.Kind == KitKind.Chiller);
        foreach (var item in new[] { fresh, old })
        {
            rows.RemoveAll(r => r is KitAct act && act.ItemId == item.Id);
            (item.Acts, item.InTankId, item.DepotId) = (0, null, null);
        }

        LentOut(old, shed, tank);
        StoredAt(fresh, shed, tank.DeliveredOn.AddDays(-40));
        var (sender, on) = (Id(), today.AddDays(-daysAgo));
        Tell(old, KitActKind.Swapped, new KitSpot(KitPlace.Depot, shed.Id), on, why, sender, KitCondition.Faulty);
        Tell(fresh, KitActKind.Swapped, InTank(tank), on, why, sender);
    }

    private void StoredAt(KitItem item, KitDepot depot, DateOnly on) => Tell(item, KitActKind.Registered, new KitSpot(KitPlace.Depot, depot.Id), on, null);

    private static KitSpot InTank(DemoTank tank) => new(KitPlace.Tank, tank.Tank.Id);

    private void Tell(KitItem item, KitActKind kind, KitSpot to, DateOnly on, string? note, Guid? sender = null, KitCondition? after = null) =>
        rows.Add(KitRules.Write(item, kind, to, sender ?? Id(), null, on.ToDateTime(new TimeOnly(16, 0), DateTimeKind.Utc), note, after));
}
