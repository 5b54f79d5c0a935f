using Tankside.Hatchery.Kit;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Demo;

/// <summary>The demo's kit: a chiller and a pump at every tank, and spares at three schools and a shed, one of them broken.</summary>
public static class DemoKit
{
    /// <summary>The depot that the kit hand has the key of.</summary>
    public const string Shed = "Kit shed, Larch Road";

    private const string Hours = "school days 8:00 to 15:00";

    private static readonly int[] DepotSchools = [3, 12, 24];

    private static readonly (KitKind Kind, string Make, string? Batch, double? MostLitres, int School)[] Spares =
    [
        (KitKind.Chiller, "Fenwick quarter horse, drop-in", "Fenwick 2022-A", 230, 3),
        (KitKind.Chiller, "Fenwick tenth horse, in-line", "Fenwick 2022-A", 115, 12),
        (KitKind.Chiller, "Fenwick quarter horse, drop-in", "Fenwick 2022-A", 230, 24),
        (KitKind.Chiller, "Fenwick quarter horse, drop-in", "Fenwick 2019-B", 230, 12),
        (KitKind.Pump, "Larkspur 300", null, null, 3),
        (KitKind.Pump, "Larkspur 300", null, null, 24),
        (KitKind.AirPump, "Larkspur air, two outlets", null, null, 3),
        (KitKind.BatteryAir, "Larkspur battery air", null, null, 3),
        (KitKind.BatteryAir, "Larkspur battery air", null, null, 12),
        (KitKind.BatteryAir, "Larkspur battery air", null, null, 24),
        (KitKind.Thermometer, "glass, checked in ice water", null, null, 12),
    ];

    public static IEnumerable<object> Build(Guid programme, IReadOnlyList<School> schools, IReadOnlyList<DemoTank> tanks, DateOnly today, DemoDice dice)
    {
        var history = new DemoKitHistory(programme, today);
        var depots = DepotSchools.ToDictionary(s => s, s => new KitDepot
        {
            Id = history.Id(),
            ProgrammeId = programme,
            Name = $"{schools[s].Name}, stock room",
            SchoolId = schools[s].Id,
            Holder = "ask at the office",
            Phone = $"555-01{50 + s}",
            Hours = Hours,
        });
        var shed = new KitDepot
        {
            Id = history.Id(),
            ProgrammeId = programme,
            Name = Shed,
            Phone = "555-0161",
            Hours = "evenings and weekends; ring first",
            Latitude = 43.81,
            Longitude = -113.62,
        };
        var atTanks = AtTanks(programme, tanks, dice).ToList();
        foreach (var (item, tank) in atTanks)
        {
            history.LentOut(item, shed, tank);
        }

        var spares = Spares.Select((s, i) => new KitItem
        {
            Id = dice.Id(),
            ProgrammeId = programme,
            Kind = s.Kind,
            Serial = $"SP-{i + 1:00}",
            Make = s.Make,
            Batch = s.Batch,
            MostLitres = s.MostLitres,
        }).ToList();
        foreach (var (i, spare) in spares.Index())
        {
            history.StoredAt(spare, depots[Spares[i].School]);
        }

        history.TellOfFailures(atTanks, spares[3], shed);
        return [.. depots.Values, shed, .. atTanks.Select(k => k.Item), .. spares, .. history.Rows, .. DemoStock.Build(programme, history)];
    }

    private static IEnumerable<(KitItem Item, DemoTank Tank)> AtTanks(Guid programme, IReadOnlyList<DemoTank> tanks, DemoDice dice) =>
        tanks.SelectMany(t => new[]
        {
            (Kind: KitKind.Chiller, Letters: "CH", Make: "Fenwick quarter horse, drop-in", Batch: t.Tank.ChillerBatch),
            (Kind: KitKind.Pump, Letters: "PU", Make: "Larkspur 300", Batch: null),
        }.Select(k => (new KitItem
        {
            Id = dice.Id(),
            ProgrammeId = programme,
            Kind = k.Kind,
            Serial = $"{k.Letters}-{t.Number:000}",
            Make = k.Make,
            Batch = k.Batch,
            Owner = k.Kind == KitKind.Chiller ? "Alder Basin anglers (invented)" : null,
            WarrantyUntil = k.Batch == "Fenwick 2022-A" ? t.DeliveredOn.AddDays(200) : null,
        }, t)));
}
