using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>
/// Looks over a whole programme for what tanks in trouble have in common, when something changed at any of them, and keeps the flags of
/// shared causes in step.
/// </summary>
public sealed class SharedJudge(IDbContextFactory<HatcheryDb> databases, DatabaseChoice database, TimeProvider time, RoundFeed feed)
{
    /// <summary>Tanks read at once.</summary>
    private const int Group = 500;

    private readonly ConcurrentDictionary<Guid, bool> changed = new();

    /// <summary>False until every programme was looked over once: nobody knows what happened while no portal ran.</summary>
    private bool started;

    /// <summary>Something changed at tanks of these programmes.</summary>
    public void Tell(IEnumerable<Guid> programmes)
    {
        foreach (var programme in programmes)
        {
            changed[programme] = true;
        }
    }

    /// <summary>Looks over the programmes that changed.</summary>
    /// <param name="judged">Tanks as the sweep has just seen them; those of which another portal judges are not among them.</param>
    public async Task<(int Opened, int Cleared)> JudgeAsync(IReadOnlyDictionary<Guid, SharedCauseTank> judged, CancellationToken cancel)
    {
        if (!started)
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            Tell(await db.Programmes.Select(p => p.Id).ToListAsync(cancel));
            started = true;
        }

        var (opened, cleared) = (0, 0);
        foreach (var programme in changed.Keys.Order())
        {
            // Taken out first: what changes while it is looked over asks for another look.
            changed.TryRemove(programme, out _);
            try
            {
                if (await TryJudgeAsync(programme, judged, cancel) is not { } done)
                {
                    changed[programme] = true; // What the other portal has read of it may be older than what changed here.
                    continue;
                }

                opened += done.Opened;
                cleared += done.Cleared;
            }
            catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.IsUniqueViolation())
            {
                changed[programme] = true; // A person acted on such a flag meanwhile; the next sweep looks again.
            }
        }

        return (opened, cleared);
    }

    /// <summary>Null when another portal is looking it over.</summary>
    private async Task<(int Opened, int Cleared)?> TryJudgeAsync(
        Guid programmeId, IReadOnlyDictionary<Guid, SharedCauseTank> judged, CancellationToken cancel)
    {
        var now = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await using var db = await databases.CreateDbContextAsync(cancel);
        // Held on PostgreSQL for the claim alone. SQLite has one writer at a time: classes would wait until the whole programme is read.
        await using var claim = database.Kind == DatabaseKind.PostgreSQL ? await db.Database.BeginTransactionAsync(cancel) : null;
        if (!await ClaimAsync(db, programmeId, cancel))
        {
            return null;
        }

        var own = await db.Settings.Where(s => s.ProgrammeId == programmeId).ToDictionaryAsync(s => s.Key, s => s.Value, cancel);
        var findings = SharedCauses.Find(await TanksAsync(db, programmeId, judged, now, cancel), new LimitSet(own));
        var open = await db.Flags.Where(f => f.ProgrammeId == programmeId && f.State == FlagState.Open && f.CauseBy != null).ToListAsync(cancel);
        var closed = await db.Flags.AsNoTracking()
            .Where(f => f.ProgrammeId == programmeId && f.CauseBy != null && f.State == FlagState.Settled && f.Settlement == Settlement.Closed)
            .ToListAsync(cancel);
        var writer = new FlagWriter(db, now);
        foreach (var cause in findings.Select(CauseOf).Concat(open.Select(CauseOf)).Distinct())
        {
            writer.Apply(null, programmeId, Reconcile.Compare(
                [.. findings.Where(f => CauseOf(f) == cause)], [.. open.Where(f => CauseOf(f) == cause)],
                [.. closed.Where(f => CauseOf(f) == cause)], _ => false, now));
        }

        await db.SaveChangesAsync(cancel);
        await (claim?.CommitAsync(cancel) ?? Task.CompletedTask);
        feed.Tell(writer.Programmes);
        return (writer.Opened, writer.Cleared);
    }

    private static (SharedBy? By, string? Code) CauseOf(Finding finding) =>
        finding.Evidence is SharedCauseEvidence e ? (e.By, e.Code) : (null, null);

    private static (SharedBy? By, string? Code) CauseOf(Flag flag) => (flag.CauseBy, flag.CauseCode);

    /// <summary>Of several portals one looks a programme over at a time.</summary>
    private async Task<bool> ClaimAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel) => database.Kind != DatabaseKind.PostgreSQL
        || await db.Database.SqlQuery<Guid>($"SELECT id AS \"Value\" FROM programmes WHERE id = {programmeId} FOR NO KEY UPDATE SKIP LOCKED").AnyAsync(cancel);

    private static async Task<IReadOnlyList<SharedCauseTank>> TanksAsync(
        HatcheryDb db, Guid programmeId, IReadOnlyDictionary<Guid, SharedCauseTank> judged, DateTime now, CancellationToken cancel)
    {
        var ids = await db.Tanks.Where(t => t.ProgrammeId == programmeId && t.ClosedAt == null && db.Receipts.Any(r => r.TankId == t.Id))
            .OrderBy(t => t.Code).Select(t => t.Id).ToListAsync(cancel);
        var seen = new Dictionary<Guid, SharedCauseTank>(judged);
        foreach (var group in ids.Where(id => !judged.ContainsKey(id)).Chunk(Group))
        {
            foreach (var (tank, one) in await SharedCauseTanks.LoadAsync(db, group, now, cancel))
            {
                seen[tank] = one;
            }
        }

        return [.. ids.Where(seen.ContainsKey).Select(id => seen[id])];
    }
}
