using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Science.Units;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>A line of history with the other side of a swap.</summary>
public sealed record KitLine(KitAct Act, string? OtherSerial);

/// <summary>A piece that could take another's place.</summary>
/// <param name="Minutes">Drive to the tank; null when one of the places is not known.</param>
public sealed record SwapChoice(KitItem Item, double? Minutes);

/// <summary>One piece of kit with its history, the newest first.</summary>
public sealed record KitCard(KitItem Item, KitNames Names, IReadOnlyList<KitLine> History, string? PromisedTo);

/// <summary>Loads what is known of a piece of kit.</summary>
public sealed class KitCards(IDbContextFactory<HatcheryDb> databases)
{
    /// <summary>Null where the asker's programme has no such serial.</summary>
    public async Task<KitCard?> FindAsync(CurrentUser user, string serial, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.KitItems.AsNoTracking().SingleOrDefaultAsync(k => k.ProgrammeId == user.ProgrammeId && k.Serial == serial, cancel) is not { } item)
        {
            return null;
        }

        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        var acts = await db.KitActs.AsNoTracking().Where(a => a.ItemId == item.Id).OrderByDescending(a => a.Number).ToListAsync(cancel);
        var swaps = acts.Where(a => a.Kind == KitActKind.Swapped).Select(a => a.SenderId).ToList();
        var others = await (
            from act in db.KitActs
            join other in db.KitItems on act.ItemId equals other.Id
            where swaps.Contains(act.SenderId) && act.ItemId != item.Id
            select new { act.SenderId, other.Serial }).ToDictionaryAsync(o => o.SenderId, o => o.Serial, cancel);
        return new KitCard(
            item, names, [.. acts.Select(a => new KitLine(a, others.GetValueOrDefault(a.SenderId)))],
            item.ReservedForTankId is { } promised && names.Tanks.TryGetValue(promised, out var tank) ? tank.Words : null);
    }

    /// <summary>What could go in at the piece's tank, the nearest first: like for like, working, free and big enough.</summary>
    public async Task<IReadOnlyList<SwapChoice>> SwapChoicesAsync(KitCard card, CancellationToken cancel)
    {
        if (card.Item.InTankId is not { } tankId || !card.Names.Tanks.TryGetValue(tankId, out var tank))
        {
            return [];
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var kit = await db.KitItems.AsNoTracking().Where(k => k.ProgrammeId == card.Item.ProgrammeId && k.Kind == card.Item.Kind).ToListAsync(cancel);
        var settings = await SettingsAsync(db, card.Item.ProgrammeId, cancel);
        var to = GeoPoint.Of(tank.School.Latitude, tank.School.Longitude);
        return
        [
            .. kit.Where(k => KitRules.WhyNoSwap(card.Item, k, tank.ForKit) is null)
                .Select(k => new SwapChoice(k, to is { } there && k.DepotId is { } depot && card.Names.Depots[depot].At is { } from ? settings.Driving.Minutes(from, there) : null))
                .OrderByDescending(c => c.Item.ReservedForTankId == tankId)
                .ThenByDescending(c => c.Item.WithPersonId is not null)
                .ThenBy(c => c.Minutes ?? double.MaxValue).ThenBy(c => c.Item.Serial, StringComparer.Ordinal),
        ];
    }

    internal static async Task<KitSettings> SettingsAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel) =>
        KitSettings.Of(await db.Settings.AsNoTracking().Where(s => s.ProgrammeId == programmeId).ToDictionaryAsync(s => s.Key, s => s.Value, cancel));
}
