using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.People;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Texts;

/// <summary>A tank that first aid is shown for while somebody writes it.</summary>
/// <param name="Value">As the form names it.</param>
public sealed record ShownTank(string Value, LifeStage Stage, AidTank Tank);

/// <summary>The tanks that first aid can be shown for: one made up at each stage, and the programme's own.</summary>
public sealed class AidShowing(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public static IReadOnlyList<(string Value, string Name)> MadeUp { get; } =
        [.. Enum.GetValues<LifeStage>().Select(s => (StageNames.NameOf(s), $"a made-up tank with {StageNames.OursOf(s).Many.En}"))];

    public async Task<IReadOnlyList<string>> TanksAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.TanksOf(user).Where(t => t.ClosedAt == null).OrderBy(t => t.Code).Select(t => t.Code).ToListAsync(cancel);
    }

    /// <summary>A tank that there is not, or that is another's, is a made-up one with alevins.</summary>
    public async Task<ShownTank> FindAsync(CurrentUser user, string? shown, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var id = await db.TanksOf(user).Where(t => t.Code == shown).Select(t => t.Id).SingleOrDefaultAsync(cancel);
        if (id != Guid.Empty)
        {
            var now = time.GetUtcNow().UtcDateTime;
            var record = (await TankRecords.LoadAsync(db, [id], now, cancel))[0];
            return new ShownTank(shown!, record.Lot is null ? LifeStage.Egg : record.DevelopmentOn(record.Calendar.Clock.Day(now)).Stage, AidTank.Of(record));
        }

        var stage = StageNames.Named(shown) ?? LifeStage.Alevin;
        var own = await db.Settings.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).ToDictionaryAsync(s => s.Key, s => s.Value, cancel);
        return new ShownTank(StageNames.NameOf(stage), stage, new AidTank
        {
            Code = "A000",
            Limits = new LimitSet(own),
            Texts = await db.OwnTextsOfAsync(user.ProgrammeId, cancel),
        });
    }
}
