using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.Places;
using Tankside.Portal.Places.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>A sheet of kit, a piece a row, known by its serial. A piece that is in the register already is not moved by a sheet.</summary>
public sealed class KitSheet : IPlaceSheet
{
    public PlaceSheet Holds => PlaceSheet.Kit;

    public IReadOnlyList<SheetField> Fields { get; } =
        [KitFields.Serial, KitFields.Kind, .. KitFields.Kept(default).Select(f => f.Field), KitFields.Place];

    public IReadOnlyList<SheetField> Keys { get; } = [KitFields.Serial];

    public IReadOnlyList<string> Example { get; } = ["CH-049", "chiller", "Fenwick quarter horse", "2026-A", "Alder Basin", "300", "2026-08-14", "2028-08-14", "Heron Ford Elementary"];

    public async Task<IReadOnlyList<PlannedRow>> PlanAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceCells> rows, CancellationToken cancel)
    {
        var programme = ask.User.ProgrammeId;
        var kit = (await db.KitItems.Where(k => k.ProgrammeId == programme).ToListAsync(cancel)).ToLookup(k => FieldReads.Same(k.Serial));
        var planner = new KitPlanner(ask, kit, await KitNames.LoadAsync(db, programme, cancel));
        return [.. rows.Select(planner.Plan)];
    }

    public async Task TakeBackAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceImportLine> lines, CancellationToken cancel)
    {
        var ids = lines.Select(l => l.ThingId).ToList();
        var there = await db.KitItems.Where(k => k.ProgrammeId == ask.User.ProgrammeId && ids.Contains(k.Id)).ToDictionaryAsync(k => k.Id, cancel);
        var acts = (await db.KitActs.Where(a => ids.Contains(a.ItemId)).ToListAsync(cancel)).ToLookup(a => a.ItemId);
        var used = await WhatRefers.ToAsync(db, ids, "ItemId", [typeof(KitAct)], cancel);
        var fields = KitFields.Kept(ask.Order);
        foreach (var line in lines)
        {
            var item = there.GetValueOrDefault(line.ThingId);
            if (!line.Added || item is null)
            {
                TakenBack.SetBack(line, item, fields);
                continue;
            }

            line.Stayed = (acts[item.Id].Any(a => a.SenderId != item.Id && a.SenderId != KitPlanner.SenderOfOut(item.Id)) ? "It stays: something was done with it since, as its history tells." : null)
                ?? (item.ReservedForTankId is not null ? "It stays: it is promised to a tank." : null)
                ?? used.GetValueOrDefault(item.Id) ?? TakenBack.ChangedSince(line, item, fields);
            if (line.Stayed is null)
            {
                db.KitActs.RemoveRange(acts[item.Id]);
                db.KitItems.Remove(item);
            }
        }
    }
}
