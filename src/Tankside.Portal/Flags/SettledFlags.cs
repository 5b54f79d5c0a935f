using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>Flags that are history, each worded as it stood when it was settled.</summary>
public sealed class SettledFlags(IDbContextFactory<HatcheryDb> databases)
{
    private const int Most = 1000;

    /// <summary>The newest first.</summary>
    public async Task<IReadOnlyList<FlagOfPortalJson>> LoadAsync(ApiKey key, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var settled = db.Flags.AsNoTracking().Where(f => f.ProgrammeId == key.ProgrammeId && f.State == FlagState.Settled && f.TankId != null);
        var flags = await (key.AllTanks ? settled : settled.Where(f => key.TankIds.Contains(f.TankId!.Value)))
            .OrderByDescending(f => f.SettledAt).ThenByDescending(f => f.Id).Take(Most).ToListAsync(cancel);
        var tankIds = flags.Select(f => f.TankId!.Value).Distinct().ToList();
        var places = await Surroundings.LoadAsync(db, tankIds, cancel);
        var ledger = (await db.Ledger.AsNoTracking().Where(e => tankIds.Contains(e.TankId)).ToListAsync(cancel)).ToLookup(e => e.TankId);
        return [.. flags.Where(f => places.Knows(f.TankId!.Value)).Select(f => Worded(f, places.Of(f.TankId!.Value), ledger[f.TankId!.Value]))];
    }

    private static FlagOfPortalJson Worded(Flag flag, TankPlace place, IEnumerable<LedgerEntry> ledger)
    {
        var at = flag.SettledAt ?? flag.UpdatedAt;
        var then = ledger.Where(e => e.At <= at).ToList();
        var season = then.Where(e => e.Kind == LedgerKind.Received).MaxBy(e => e.At)?.SeasonId;
        var fish = TankBalance.Of(then.Where(e => e.SeasonId == season), closed: false).StillInTank;
        var words = new ReasonWords(place.Calendar, fish, at, place.Programme.ScreenUnit, place.Names);
        return FlagOfPortalJson.Of(flag, place, fish, words.Of(flag.AsFinding()));
    }
}
