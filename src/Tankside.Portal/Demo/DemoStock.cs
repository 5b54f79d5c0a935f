using Tankside.Hatchery.Kit;

namespace Tankside.Portal.Demo;

/// <summary>The demo's consumables: two of them run low, one of those is ordered.</summary>
internal static class DemoStock
{
    private static readonly (string Name, string Unit, int InStock, int ReorderAt, int Quantity, string? Supplier, bool Ordered)[] Shelf =
    [
        ("Ammonia test, reagents", "kit of 130 tests", 4, 6, 12, "Larkspur Aquatics (invented)", false),
        ("Nitrite test, reagents", "kit of 180 tests", 9, 6, 12, "Larkspur Aquatics (invented)", false),
        ("Chlorine and chloramine neutraliser", "bottle of 250 ml", 22, 12, 24, "Larkspur Aquatics (invented)", false),
        ("Air stones", "piece", 40, 20, 50, null, false),
        ("Battery cells, size D", "pair", 6, 20, 60, "any shop", true),
        ("Filter sponge", "piece", 15, 8, 20, null, false),
    ];

    public static IEnumerable<object> Build(Guid programme, DemoKitHistory history) => Shelf.Select(s => new Consumable
    {
        Id = history.Id(),
        ProgrammeId = programme,
        Name = s.Name,
        Unit = s.Unit,
        InStock = s.InStock,
        ReorderAt = s.ReorderAt,
        ReorderQuantity = s.Quantity,
        Supplier = s.Supplier,
        OrderedAt = s.Ordered ? history.Today.AddDays(-3).ToDateTime(new TimeOnly(16, 0), DateTimeKind.Utc) : null,
    });
}
