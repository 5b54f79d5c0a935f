using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Storage;

namespace Tankside.Portal.Places;

/// <summary>What a programme set for itself: its closed days, its own numbers and words, its marked areas. Read only.</summary>
public sealed class ProgrammeWays
{
    private readonly List<Closure> everywhere;
    private readonly ILookup<Guid, Closure> bySchool;

    private ProgrammeWays(
        IEnumerable<Closure> closures, IReadOnlyDictionary<string, double> ownSettings, OwnTexts texts, IReadOnlyList<AreaSweep> sweeps)
    {
        var all = closures.ToList();
        everywhere = [.. all.Where(c => c.SchoolId is null)];
        bySchool = all.Where(c => c.SchoolId is not null).ToLookup(c => c.SchoolId!.Value);
        (OwnSettings, Texts, Sweeps) = (ownSettings, texts, sweeps);
    }

    public IReadOnlyDictionary<string, double> OwnSettings { get; }

    public OwnTexts Texts { get; }

    /// <summary>Every mark that was ever made, the oldest first.</summary>
    public IReadOnlyList<AreaSweep> Sweeps { get; }

    /// <summary>The days on which a school is closed, those of the whole programme among them.</summary>
    public IEnumerable<Closure> ClosuresOf(Guid schoolId) => everywhere.Concat(bySchool[schoolId]);

    /// <summary>The marks over a school's area, whether they hold still or not.</summary>
    public IReadOnlyList<AreaSweep> SweepsOver(School school) => [.. Sweeps.Where(s => s.IsFor(school.Area))];

    /// <summary>When a school is open.</summary>
    /// <param name="now">The moment by which an area shut without an end is shut still; null where days to come do not matter.</param>
    public SchoolCalendar CalendarOf(School school, Programme programme, DateTime? now)
    {
        var clock = ProgrammeClock.Of(programme.TimeZone);
        return new SchoolCalendar(
            clock, school.OpensAt, school.ClosesAt,
            [.. ClosuresOf(school.Id).Select(c => (c.FirstDay, c.LastDay))],
            [.. SweepsOver(school).Select(s => s.ShutDays(clock, school.OpensAt, school.ClosesAt, now)).OfType<(DateOnly, DateOnly)>()]);
    }

    /// <summary>Of one programme; one question where nothing has changed since the last.</summary>
    public static async Task<ProgrammeWays> OfAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel) =>
        await OfAsync(db, programmeId, await db.WaysStamps.Where(s => s.ProgrammeId == programmeId).Select(s => (long?)s.Stamp).SingleOrDefaultAsync(cancel), cancel);

    /// <param name="stamp">As it was read together with whatever else was asked; null where the programme never set anything.</param>
    public static async Task<ProgrammeWays> OfAsync(HatcheryDb db, Guid programmeId, long? stamp, CancellationToken cancel) =>
        (await OfAsync(db, new Dictionary<Guid, long?> { [programmeId] = stamp }, cancel))[programmeId];

    /// <summary>Of several programmes, each with its stamp. What is read after a stamp may be newer than it, never older: then it is read once more.</summary>
    public static async Task<IReadOnlyDictionary<Guid, ProgrammeWays>> OfAsync(
        HatcheryDb db, IReadOnlyDictionary<Guid, long?> stamps, CancellationToken cancel)
    {
        // A context of a test that stands alone remembers nothing.
        var known = db.GetService<IDbContextOptions>().FindExtension<CoreOptionsExtension>()?.ApplicationServiceProvider?.GetService<KnownWays>();
        var result = new Dictionary<Guid, ProgrammeWays>();
        foreach (var (programme, stamp) in stamps)
        {
            if (known?.Of(programme, stamp) is { } ways)
            {
                result[programme] = ways;
            }
        }

        if (stamps.Keys.Where(p => !result.ContainsKey(p)).ToList() is { Count: > 0 } asked)
        {
            foreach (var (programme, ways) in await ReadAsync(db, asked, cancel))
            {
                result[programme] = ways;
                known?.Keep(programme, stamps[programme], ways);
            }
        }

        return result;
    }

    private static async Task<Dictionary<Guid, ProgrammeWays>> ReadAsync(HatcheryDb db, List<Guid> programmes, CancellationToken cancel)
    {
        var closures = (await db.Closures.AsNoTracking().Where(c => programmes.Contains(c.ProgrammeId)).ToListAsync(cancel)).ToLookup(c => c.ProgrammeId);
        var settings = (await db.Settings.AsNoTracking().Where(s => programmes.Contains(s.ProgrammeId)).ToListAsync(cancel)).ToLookup(s => s.ProgrammeId);
        var texts = (await db.OwnTexts.AsNoTracking().Where(t => programmes.Contains(t.ProgrammeId)).ToListAsync(cancel)).ToLookup(t => t.ProgrammeId);
        var sweeps = (await db.AreaSweeps.AsNoTracking().Where(s => programmes.Contains(s.ProgrammeId)).OrderBy(s => s.From).ToListAsync(cancel))
            .ToLookup(s => s.ProgrammeId);
        return programmes.ToDictionary(
            p => p, p => new ProgrammeWays(closures[p], settings[p].ToDictionary(s => s.Key, s => s.Value), new OwnTexts(texts[p]), [.. sweeps[p]]));
    }
}

/// <summary>The ways of each programme as they were last read, with the stamp that they were read under.</summary>
public sealed class KnownWays
{
    private readonly ConcurrentDictionary<Guid, (long? Stamp, ProgrammeWays Ways)> known = new();

    /// <summary>Null when they changed since, or were never read.</summary>
    public ProgrammeWays? Of(Guid programme, long? stamp) => known.TryGetValue(programme, out var kept) && kept.Stamp == stamp ? kept.Ways : null;

    public void Keep(Guid programme, long? stamp, ProgrammeWays ways) => known[programme] = (stamp, ways);
}
