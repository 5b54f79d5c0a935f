using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>What to show of the register.</summary>
/// <param name="Search">Part of a serial, a make, a batch, a tank's code, a school or a depot.</param>
public sealed record RegisterQuestion(KitKind? Kind = null, KitCondition? Condition = null, KitPlace? Place = null, string? Search = null, int Page = 1);

/// <summary>A piece of kit with its place in words.</summary>
public sealed record ListedKit(KitItem Item, string Where, string? Code);

/// <summary>The register, as much of it as was asked for.</summary>
public sealed record KitList(int All, int Faulty, int InRepair, int SparesReady, int ToClean, IReadOnlyList<ListedKit> Fits, int Matches, int Page, int Pages);

/// <summary>Every piece of kit of a programme.</summary>
public sealed class KitRegister(IDbContextFactory<HatcheryDb> databases, Say say)
{
    private const int OnAPage = 60;

    public async Task<KitList> LoadAsync(CurrentUser user, RegisterQuestion ask, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var kit = await db.KitItems.AsNoTracking().Where(k => k.ProgrammeId == user.ProgrammeId).ToListAsync(cancel);
        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        var search = ask.Search?.Trim();
        var fits = kit
            .Where(k => ask.Condition is null ? k.Condition != KitCondition.Retired || ask.Place == KitPlace.Retired || !string.IsNullOrEmpty(search) : k.Condition == ask.Condition)
            .Where(k => (ask.Kind is null || k.Kind == ask.Kind) && (ask.Place is null || k.Spot.Place == ask.Place))
            .Select(k => new ListedKit(k, names.Of(k.Spot, say), k.InTankId is { } tank && names.Tanks.TryGetValue(tank, out var at) ? at.Tank.Code : null))
            .Where(k => string.IsNullOrEmpty(search) || new[] { k.Item.Serial, k.Item.Make, k.Item.Batch, k.Where }.Any(t => t?.Contains(search, StringComparison.OrdinalIgnoreCase) == true))
            .OrderBy(k => k.Item.Condition == KitCondition.Working).ThenBy(k => k.Item.Kind).ThenBy(k => k.Item.Serial, StringComparer.Ordinal).ToList();
        var pages = Math.Max(1, (fits.Count + OnAPage - 1) / OnAPage);
        var page = Math.Clamp(ask.Page, 1, pages);
        return new KitList(
            kit.Count(k => k.Condition != KitCondition.Retired), kit.Count(k => k.Condition == KitCondition.Faulty), kit.Count(k => k.Condition == KitCondition.InRepair),
            kit.Count(k => k.IsSpare), kit.Count(k => k.ToClean && k.Condition != KitCondition.Retired), [.. fits.Skip((page - 1) * OnAPage).Take(OnAPage)], fits.Count, page, pages);
    }
}
