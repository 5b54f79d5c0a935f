using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Steering;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags.FirstPages;

/// <summary>A teacher's first page: the school's tanks, and what the next two weeks bring.</summary>
/// <param name="Away">Closures that begin or go on within the two weeks, the weekends left out.</param>
public sealed record TeacherHomeNow(string School, DateTime At, IReadOnlyList<TankGlance> Tanks, IReadOnlyList<SchoolClosed> Away, TimeWords Time, ScaleWords Scale)
{
    /// <summary>The set-point plans that are kept, by tank.</summary>
    public IReadOnlyDictionary<Guid, SetPointPlan> Plans { get; init; } = new Dictionary<Guid, SetPointPlan>();
}

/// <summary>A stretch on which the school, or the whole programme, is shut.</summary>
public sealed record SchoolClosed(DateOnly First, DateOnly Last, string Reason);

/// <summary>What somebody's first page says.</summary>
public sealed class Homes(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Round round)
{
    /// <summary>How far a teacher's first page looks ahead, days.</summary>
    public const int DaysAhead = 14;

    private static readonly FlagKind[] KitTroubles = [FlagKind.ChillerFault, FlagKind.PumpFault, FlagKind.IcedCoil];

    /// <summary>Null for a teacher whose school is gone.</summary>
    public async Task<TeacherHomeNow?> TeacherAsync(CurrentUser user, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == user.ProgrammeId, cancel);
        if (await db.Schools.AsNoTracking().SingleOrDefaultAsync(s => s.Id == user.SchoolId && s.ProgrammeId == user.ProgrammeId, cancel) is not { } school)
        {
            return null;
        }

        var ids = await db.TanksOf(user).Where(t => t.ClosedAt == null).Select(t => t.Id).ToListAsync(cancel);
        var words = new TimeWords(ProgrammeClock.Of(programme.TimeZone), now);
        var (today, last) = (words.Today, words.Today.AddDays(DaysAhead));
        var away = await db.Closures.AsNoTracking()
            .Where(c => c.ProgrammeId == user.ProgrammeId && (c.SchoolId == null || c.SchoolId == school.Id) && c.LastDay >= today && c.FirstDay <= last)
            .OrderBy(c => c.FirstDay).ThenBy(c => c.Id)
            .Select(c => new SchoolClosed(c.FirstDay, c.LastDay, c.Reason)).ToListAsync(cancel);
        return new TeacherHomeNow(
            school.Name, now, await TankGlances.LoadAsync(db, ids, now, cancel), away, words, new ScaleWords(programme.ScreenUnit))
        {
            Plans = await KeptPlans.LoadAsync(db, ids, cancel),
        };
    }

    /// <summary>Whether this is one of the made-up people of the demo season.</summary>
    public async Task<bool> IsDemoAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Users.AnyAsync(p => p.Id == user.PersonId && p.IsDemo, cancel);
    }

    public Task<RoundNow> RoundAsync(CurrentUser user, CancellationToken cancel) => round.LoadAsync(user.ProgrammeId, cancel);

    /// <summary>The calls of the round that are about chiller, pump or ice, with these flags alone.</summary>
    public async Task<IReadOnlyList<RoundCall>> KitAsync(CurrentUser user, CancellationToken cancel) =>
        [.. (await round.LoadAsync(user.ProgrammeId, cancel)).Calls
            .Select(c => c with { Troubles = [.. c.Troubles.Where(t => KitTroubles.Contains(t.Flag.Kind))] })
            .Where(c => c.Troubles.Count > 0)];
}
