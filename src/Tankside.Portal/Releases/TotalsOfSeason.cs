using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Releases.Sealing;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>A season's account: folded from its ledger, or, once it is sealed, as it was then.</summary>
public sealed class TotalsOfSeason(Replica replica, TimeProvider time)
{
    /// <summary>The season by name, or the current one: that of today, else the newest. Null when there is none.</summary>
    /// <param name="school">Only this school's tanks, for those to whom no others exist; always as the ledger stands.</param>
    public async Task<SeasonTotals?> LoadAsync(Guid programmeId, string? seasonName, CancellationToken cancel, Guid? school = null)
    {
        await using var db = await replica.OpenAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var clock = ProgrammeClock.Of(programme.TimeZone);
        if (await FindAsync(db, programmeId, seasonName, clock.Day(time.GetUtcNow().UtcDateTime), cancel) is not { } season)
        {
            return null;
        }

        return school is null && await Seals.InForceAsync(db, season.Id, cancel) is { } seal
            ? SealedAccount.Unpack(seal)
            : await SeasonFold.LoadAsync(db, programme, season, school, cancel);
    }

    /// <summary>Names of the programme's seasons, newest first.</summary>
    public async Task<IReadOnlyList<string>> NamesAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await replica.OpenAsync(cancel);
        return await db.Seasons.Where(s => s.ProgrammeId == programmeId).OrderByDescending(s => s.StartsOn).Select(s => s.Name).ToListAsync(cancel);
    }

    public static async Task<Season?> FindAsync(HatcheryDb db, Guid programmeId, string? name, DateOnly today, CancellationToken cancel)
    {
        var seasons = await db.Seasons.AsNoTracking().Where(s => s.ProgrammeId == programmeId).OrderBy(s => s.StartsOn).ToListAsync(cancel);
        return name is null
            ? seasons.LastOrDefault(s => s.StartsOn <= today && today <= s.EndsOn) ?? seasons.LastOrDefault()
            : seasons.SingleOrDefault(s => s.Name == name);
    }
}
