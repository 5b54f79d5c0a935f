using Tankside.Hatchery.Kit;
using Tankside.Hatchery.Places;
using Tankside.Portal.Places.Sheets;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Kit;

/// <summary>Looks at the rows of one sheet of kit by the register's own rules.</summary>
internal sealed class KitPlanner(PlaceAsk ask, ILookup<string, KitItem> kit, KitNames names)
{
    private readonly IReadOnlyList<ThingField<KitItem>> fields = KitFields.Kept(ask.Order);
    private readonly Dictionary<string, int> before = new(StringComparer.Ordinal);
    private readonly ILookup<string, KitSpot> places = PlacesOf(names);

    public PlannedRow Plan(PlaceCells cells)
    {
        var serial = cells.Need(KitFields.Serial).ToUpperInvariant();
        var item = kit[FieldReads.Same(serial)].FirstOrDefault();
        if (serial.Length > 0 && item is null && RegisterKit.WhyNoSerial(serial) is { } why)
        {
            cells.Unclear($"“{SheetTexts.Shortened(serial)}”: {why}");
        }

        if (serial.Length > 0 && !before.TryAdd(FieldReads.Same(serial), cells.Row.Number))
        {
            cells.Unclear($"{SheetTexts.Shortened(serial)} stands in row {before[FieldReads.Same(serial)]} already. A serial is in one place.");
        }

        var kindCell = item is null ? cells.Need(KitFields.Kind) : cells[KitFields.Kind];
        var kind = KitFields.KindOf(kindCell);
        if (kindCell.Length > 0 && kind is null)
        {
            cells.Unclear($"“{SheetTexts.Shortened(kindCell)}” is no kind of kit. Expected: {KitFields.Kind.Expected}.");
        }
        else if (item is not null && kind is { } other && other != item.Kind)
        {
            cells.Unclear($"{item.Serial} is a {KitWords.Of(item.Kind)} by the register, not a {KitWords.Of(other)}. Look at the number again.");
        }

        var spot = SpotOf(cells, cells[KitFields.Place]);
        if (item is not null && spot is { } said && said != item.Spot && cells[KitFields.Place].Length > 0)
        {
            cells.Unclear($"By the register {item.Serial} is elsewhere: {names.Of(item.Spot)}. A serial is in one place; move it on its own page, so that its history tells.");
        }

        var changes = cells.Compare(item, fields);
        return PlannedRow.Of(cells, $"{(kind ?? item?.Kind) switch { { } k => KitWords.Of(k), _ => "" }} {item?.Serial ?? serial}".Trim(), [item is null ? Fresh(cells, serial, kind ?? default, spot ?? KitSpot.Unknown, changes) : Known(item, changes)]);
    }

    private PlannedThing Known(KitItem item, IReadOnlyList<FieldChange> changes) =>
        new(PlaceThing.Kit, item.Id, item.Serial, false, changes, _ => SetFields(item, changes));

    /// <summary>Entered in the register, and lent out where the sheet says it runs at a tank.</summary>
    private PlannedThing Fresh(PlaceCells cells, string serial, KitKind kind, KitSpot spot, IReadOnlyList<FieldChange> changes)
    {
        var item = new KitItem { Id = Guid.CreateVersion7(), ProgrammeId = ask.User.ProgrammeId, Kind = kind, Serial = serial, Make = "" };
        SetFields(item, changes);
        var tank = spot is { Place: KitPlace.Tank, Id: { } id } ? names.Tanks[id] : null;
        if (tank is not null && KitRules.WhyNot(item, KitActKind.Out, tank.ForKit) is { } refusal)
        {
            cells.Unclear(KitWords.WhyNot(refusal));
        }

        var shown = changes.Append(new FieldChange("place", "place", "", names.Of(spot)));
        return new PlannedThing(PlaceThing.Kit, item.Id, $"{KitWords.Of(kind)} {serial}", true, [.. shown], db =>
        {
            db.KitItems.Add(item);
            db.KitActs.Add(KitRules.Write(item, KitActKind.Registered, tank is null ? spot : KitSpot.Unknown, item.Id, ask.User.PersonId, ask.Now, null));
            if (tank is not null)
            {
                db.KitActs.Add(KitRules.Write(item, KitActKind.Out, spot, SenderOfOut(item.Id), ask.User.PersonId, ask.Now, null));
            }
        });
    }

    /// <summary>An act's sender is one act of a piece; the second of an import has its own, which is known again when it is taken back.</summary>
    internal static Guid SenderOfOut(Guid item)
    {
        var bytes = item.ToByteArray();
        bytes[^1] ^= 0xFF;
        return new Guid(bytes);
    }

    private void SetFields(KitItem item, IReadOnlyList<FieldChange> changes)
    {
        foreach (var change in changes)
        {
            fields.First(f => f.Field.Key == change.Key).Set(item, change.To);
        }
    }

    private KitSpot? SpotOf(PlaceCells cells, string cell)
    {
        if (cell.Length == 0)
        {
            return null;
        }

        var found = places[FieldReads.Same(cell)].Distinct().ToList();
        if (found.Count == 1)
        {
            return found[0];
        }

        cells.Unclear(found.Count == 0
            ? $"“{SheetTexts.Shortened(cell)}” is no place of your programme. Expected: {KitFields.Place.Expected}."
            : $"“{SheetTexts.Shortened(cell)}” has {found.Count} places for kit. Name the depot or the tank’s code.");
        return null;
    }

    /// <summary>Depots by name, tanks by code, and schools: their depots where they have any, else their tanks.</summary>
    private static ILookup<string, KitSpot> PlacesOf(KitNames names)
    {
        var depots = names.Depots.Values.Where(d => d.Depot.ClosedAt is null).ToList();
        var tanks = names.Tanks.Values.Where(t => t.Tank.ClosedAt is null).ToList();
        var withDepot = depots.Select(d => d.School).OfType<string>().ToHashSet(StringComparer.Ordinal);
        return depots.Select(d => (d.Depot.Name, Spot: new KitSpot(KitPlace.Depot, d.Depot.Id)))
            .Concat(depots.Where(d => d.School is not null).Select(d => (d.School!, new KitSpot(KitPlace.Depot, d.Depot.Id))))
            .Concat(tanks.Select(t => (t.Tank.Code, new KitSpot(KitPlace.Tank, t.Tank.Id))))
            .Concat(tanks.Where(t => !withDepot.Contains(t.School.Name)).Select(t => (t.School.Name, new KitSpot(KitPlace.Tank, t.Tank.Id))))
            .ToLookup(p => FieldReads.Same(p.Item1), p => p.Item2);
    }
}
