using Tankside.Hatchery.Kit;
using Tankside.Portal.Places.Sheets;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Kit;

/// <summary>What a sheet can say of a piece of kit.</summary>
internal static class KitFields
{
    public static readonly SheetField Serial = new("serial", "serial", ["serial", "serial number", "serial no", "asset", "serie"], "the maker’s serial or your own label’s number, such as CH-049", Required: true),
        Kind = new("kind", "kind", ["kind", "type", "item", "what", "equipment", "tipo"], "chiller, pump, air pump, battery air pump, filter, thermometer, tank or logger", Required: true),
        Place = new("place", "place", ["place", "where", "location", "depot", "school", "tank code", "lugar"], "a depot’s name, a tank’s code, or a school with one depot or one tank");

    private static readonly SheetField Make = new("make", "make and model", ["make", "model", "make and model", "maker", "brand", "marca"], "make and model as on the plate, at most 100 signs", Required: true),
        Batch = new("batch", "batch", ["batch", "delivery", "lote"], "the delivery it came with, such as 2026-A"),
        Owner = new("owner", "owner", ["owner", "owned by", "belongs to", "dueno"], "whose it is, at most 200 signs"),
        MostLitres = new("litres", "most litres", ["most litres", "litres", "liters", "capacity", "litros"], "the most water it can serve, such as 208"),
        Bought = new("bought", "bought on", ["bought*", "purchased*", "purchase date", "comprado"], "a day with month and year, such as 2026-08-14", IsDay: true),
        Warranty = new("warranty", "warranty until", ["warranty*", "guarantee*", "garantia"], "a day with month and year, such as 2028-08-14", IsDay: true);

    private static readonly Dictionary<string, KitKind> Kinds = Enum.GetValues<KitKind>()
        .SelectMany(k => new[] { (KitWords.Of(k), k), (KitWords.Many(k), k) })
        .ToDictionary(k => k.Item1, k => k.Item2, StringComparer.Ordinal);

    public static KitKind? KindOf(string cell) => Kinds.TryGetValue(Headings.Plain(cell), out var kind) ? kind : null;

    public static IReadOnlyList<ThingField<KitItem>> Kept(DateOrder order) =>
    [
        new(Make, FieldReads.Text(100), k => k.Make, (k, v) => k.Make = v),
        new(Batch, FieldReads.Text(200), k => k.Batch ?? "", (k, v) => k.Batch = FieldReads.OrNull(v)),
        new(Owner, FieldReads.Text(200), k => k.Owner ?? "", (k, v) => k.Owner = FieldReads.OrNull(v)),
        new(MostLitres, FieldReads.Number(1, 5000), k => FieldReads.Of(k.MostLitres), (k, v) => k.MostLitres = FieldReads.NumberOf(v)),
        new(Bought, FieldReads.Day(order), k => FieldReads.Of(k.BoughtOn), (k, v) => k.BoughtOn = FieldReads.DayOf(v)),
        new(Warranty, FieldReads.Day(order), k => FieldReads.Of(k.WarrantyUntil), (k, v) => k.WarrantyUntil = FieldReads.DayOf(v)),
    ];
}
