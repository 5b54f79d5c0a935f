using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>A mark in one line.</summary>
public sealed record SweepLine(AreaSweep Sweep, SweepCount Count, ProgrammeClock Clock)
{
    /// <summary>"Power cut in north since 17:30", with the day when it is not today's.</summary>
    public string Words(DateTime now)
    {
        var local = Clock.Local(Sweep.From);
        var since = local.ToString(Clock.Day(Sweep.From) == Clock.Day(now) ? "HH:mm" : "ddd d MMM HH:mm", CultureInfo.InvariantCulture);
        var what = CountWords.Capital(SweepWords.Of(Sweep.Reason));
        return $"{what} in {SweepWords.Area(Sweep.Area)} since {since}";
    }
}

/// <summary>The marks of a programme in lines.</summary>
public sealed class OpenSweeps(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>How long an ended mark stays in sight.</summary>
    private static readonly TimeSpan Lately = TimeSpan.FromDays(30);

    public DateTime Now => time.GetUtcNow().UtcDateTime;

    /// <summary>Those that stand, the oldest first.</summary>
    public Task<IReadOnlyList<SweepLine>> StandingAsync(Guid programmeId, CancellationToken cancel) =>
        LoadAsync(programmeId, s => s.Where(x => x.EndedAt == null).OrderBy(x => x.From), cancel);

    /// <summary>Those that ended lately, the newest first.</summary>
    public Task<IReadOnlyList<SweepLine>> EndedAsync(Guid programmeId, CancellationToken cancel)
    {
        var from = Now - Lately;
        return LoadAsync(programmeId, s => s.Where(x => x.EndedAt != null && x.EndedAt > from).OrderByDescending(x => x.EndedAt), cancel);
    }

    private async Task<IReadOnlyList<SweepLine>> LoadAsync(
        Guid programmeId, Func<IQueryable<AreaSweep>, IQueryable<AreaSweep>> which, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var sweeps = await which(db.AreaSweeps.AsNoTracking().Where(s => s.ProgrammeId == programmeId)).ToListAsync(cancel);
        if (sweeps.Count == 0)
        {
            return [];
        }

        var clock = ProgrammeClock.Of(await db.Programmes.Where(p => p.Id == programmeId).Select(p => p.TimeZone).SingleAsync(cancel));
        var ids = sweeps.Select(s => s.Id).ToList();
        var replies = (await db.SweepReplies.AsNoTracking().Where(r => ids.Contains(r.SweepId) && r.Answer != null).ToListAsync(cancel)).ToLookup(r => (r.SweepId, r.SchoolId));
        var schools = await db.SchoolsUnder(new AreaSweep { ProgrammeId = programmeId, Area = "" }).Select(s => new { s.Id, s.Area }).ToListAsync(cancel);
        return [.. sweeps.Select(sweep => new SweepLine(
            sweep, SweepCount.Of(schools.Where(s => sweep.IsFor(s.Area)).Select(s => SchoolWord.Standing(replies[(sweep.Id, s.Id)]))), clock))];
    }
}
