using Tankside.Hatchery.Kit;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Demo;

/// <summary>The demo's kit: a chiller and a pump at every tank, and spares at three places, one of them broken.</summary>
public static class DemoKit
{
    private const string Hours = "school days 8:00 to 15:00";

    private static readonly (KitKind Kind, string Make, double? MostLitres, int School, KitCondition Condition)[] Spares =
    [
        (KitKind.Chiller, "Fenwick quarter horse, drop-in", 230, 3, KitCondition.Working),
        (KitKind.Chiller, "Fenwick tenth horse, in-line", 115, 12, KitCondition.Working),
        (KitKind.Chiller, "Fenwick quarter horse, drop-in", 230, 24, KitCondition.Working),
        (KitKind.Chiller, "Fenwick quarter horse, drop-in", 230, 12, KitCondition.InRepair),
        (KitKind.Pump, "Larkspur 300", null, 3, KitCondition.Working),
        (KitKind.Pump, "Larkspur 300", null, 24, KitCondition.Working),
        (KitKind.AirPump, "Larkspur air, two outlets", null, 3, KitCondition.Working),
        (KitKind.BatteryAir, "Larkspur battery air", null, 3, KitCondition.Working),
        (KitKind.BatteryAir, "Larkspur battery air", null, 12, KitCondition.Working),
        (KitKind.BatteryAir, "Larkspur battery air", null, 24, KitCondition.Working),
        (KitKind.Thermometer, "glass, checked in ice water", null, 12, KitCondition.Working),
    ];

    public static IEnumerable<KitItem> Build(Guid programme, IReadOnlyList<School> schools, IReadOnlyList<DemoTank> tanks, DemoDice dice) =>
        AtTanks(programme, tanks, dice).Concat(Spares.Select((s, i) => new KitItem
        {
            Id = dice.Id(),
            ProgrammeId = programme,
            Kind = s.Kind,
            Serial = $"SP-{i + 1:00}",
            Make = s.Make,
            Condition = s.Condition,
            SchoolId = schools[s.School].Id,
            Place = "stock room",
            Holder = "ask at the office",
            HolderPhone = $"555-01{50 + s.School}",
            Hours = Hours,
            MostLitres = s.MostLitres,
        }));

    private static IEnumerable<KitItem> AtTanks(Guid programme, IReadOnlyList<DemoTank> tanks, DemoDice dice) =>
        tanks.SelectMany(t => new[] { (KitKind.Chiller, "CH", t.Tank.ChillerBatch!), (KitKind.Pump, "PU", "Larkspur 300") }.Select(k => new KitItem
        {
            Id = dice.Id(),
            ProgrammeId = programme,
            Kind = k.Item1,
            Serial = $"{k.Item2}-{t.Number:000}",
            Make = k.Item3,
            Condition = KitCondition.Working,
            InTankId = t.Tank.Id,
            SchoolId = t.School.Id,
        }));
}
