using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Flags.Steering;
using Tankside.Portal.Places;
using Tankside.Storage;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Flags;

/// <summary>What one run of the judge did.</summary>
public sealed record JudgeReport(int Tanks, int Opened, int Cleared, double Seconds);

/// <summary>
/// Judges tanks: folds the days with new facts, finds what is wrong, and brings the flags into step, those of a group of tanks in one
/// transaction. Facts are pulled from the database, so a crash or a missed word loses nothing.
/// </summary>
public sealed class Judge(
    IDbContextFactory<HatcheryDb> databases, DatabaseChoice database, TimeProvider time, RoundFeed feed, SharedJudge shared,
    IEnumerable<ISavedWithFlags> savedWith, ILogger<Judge> log) : IDisposable
{
    /// <summary>Tanks judged in one transaction.</summary>
    private const int Group = 200;

    /// <summary>Days for which the account of a closed tank is still looked at; its open flags are for as long as they are open.</summary>
    private const int AfterClosing = 30;

    /// <summary>How often a group is judged again when a person changed one of its flags meanwhile.</summary>
    private const int Tries = 5;

    /// <summary>In one process one run at a time; between processes the rows are locked.</summary>
    private readonly SemaphoreSlim turn = new(1);

    /// <summary>Letters of several groups are written one group after the other: crosswise, each would wait for the other's rows.</summary>
    private readonly SemaphoreSlim letters = new(1);

    /// <summary>Groups judged beside one another. SQLite has one writer, and reads nothing faster for being asked twice at once.</summary>
    private int Beside => database.Kind == DatabaseKind.PostgreSQL ? Math.Clamp(Environment.ProcessorCount, 1, 4) : 1;

    private DateOnly prunedTo;

    public void Dispose()
    {
        turn.Dispose();
        letters.Dispose();
    }

    /// <summary>Judges the tanks that have unjudged facts.</summary>
    public Task<JudgeReport> JudgeNewFactsAsync(CancellationToken cancel) => RunAsync(
        db => db.UnjudgedFacts.Select(f => f.TankId).Distinct().ToListAsync(cancel), null, cancel);

    /// <summary>Judges every open tank by the clock, for silence and hours left change without a new fact; then what tanks have in common.</summary>
    public async Task<JudgeReport> JudgeAllAsync(CancellationToken cancel)
    {
        var watch = Stopwatch.StartNew();
        await TurnDialsAsync(cancel);
        await PruneAsync(cancel);
        var sweep = new Sweep();
        var report = await JudgeEachAsync(sweep, cancel);
        var (opened, cleared) = await shared.JudgeAsync(sweep.Judged, cancel);
        return report with { Opened = report.Opened + opened, Cleared = report.Cleared + cleared, Seconds = watch.Elapsed.TotalSeconds };
    }

    /// <summary>A plan's step of today is the set-point that today's readings are judged by.</summary>
    private async Task TurnDialsAsync(CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        await PlannedDials.TurnAsync(db, time.GetUtcNow().UtcDateTime, cancel);
    }

    /// <summary>Single facts that the rules look back on no more; once a day.</summary>
    private async Task PruneAsync(CancellationToken cancel)
    {
        var first = DayFolding.FirstDay(time.GetUtcNow().UtcDateTime);
        if (first != prunedTo)
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            await db.DayFacts.Where(d => d.Day < first).ExecuteDeleteAsync(cancel);
            prunedTo = first;
        }
    }

    private Task<JudgeReport> JudgeEachAsync(Sweep sweep, CancellationToken cancel) => RunAsync(
        db => db.Tanks.Where(t => t.ClosedAt == null || t.ClosedAt > time.GetUtcNow().UtcDateTime.AddDays(-AfterClosing) || db.Flags.Any(f => f.TankId == t.Id && f.State == FlagState.Open))
            .OrderBy(t => t.Code).Select(t => t.Id).ToListAsync(cancel),
        sweep, cancel);

    /// <param name="sweep">Null when only tanks with new facts are judged.</param>
    private async Task<JudgeReport> RunAsync(Func<HatcheryDb, Task<List<Guid>>> which, Sweep? sweep, CancellationToken cancel)
    {
        var watch = Stopwatch.StartNew();
        await turn.WaitAsync(cancel);
        try
        {
            List<Guid> tankIds;
            await using (var db = await databases.CreateDbContextAsync(cancel))
            {
                tankIds = await which(db);
            }

            var (opened, cleared) = (0, 0);
            await Parallel.ForEachAsync(tankIds.Chunk(Group), new ParallelOptions { MaxDegreeOfParallelism = Beside, CancellationToken = cancel }, async (group, stop) =>
            {
                var done = await JudgeGroupAsync(group, sweep, stop);
                Interlocked.Add(ref opened, done.Opened);
                Interlocked.Add(ref cleared, done.Cleared);
            });

            return new JudgeReport(tankIds.Count, opened, cleared, watch.Elapsed.TotalSeconds);
        }
        finally
        {
            turn.Release();
        }
    }

    private async Task<(int Opened, int Cleared)> JudgeGroupAsync(Guid[] group, Sweep? sweep, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await TryJudgeGroupAsync(group, sweep, cancel);
            }
            catch (DbUpdateException e) when (attempt < Tries && (e is DbUpdateConcurrencyException || e.IsUniqueViolation()))
            {
                log.LogDebug("A flag changed while {Tanks} tanks were judged; judging them again", group.Length);
            }
        }
    }

    private async Task<(int Opened, int Cleared)> TryJudgeGroupAsync(Guid[] group, Sweep? sweep, CancellationToken cancel)
    {
        var now = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await using var db = await databases.CreateDbContextAsync(cancel);
        // The rows claimed on PostgreSQL are held from here. SQLite has one writer at a time, whom classes would wait for: there only the
        // writing is one transaction, this is the only judge, and a flag that somebody changes meanwhile is told by its version.
        await using var claim = database.Kind == DatabaseKind.PostgreSQL ? await db.Database.BeginTransactionAsync(cancel) : null;
        var tankIds = await JudgeClaim.TakeAsync(db, group, wait: false, cancel);
        var facts = await db.UnjudgedFacts.Where(f => tankIds.Contains(f.TankId)).ToListAsync(cancel);
        await DayFolding.FoldAsync(db, facts, now, cancel);
        await db.SaveChangesAsync(cancel);

        var places = await Surroundings.LoadAsync(db, tankIds, cancel, now);
        var records = await TankRecords.EachAsync(db, tankIds, places, withSiblings: true, folded: true, now, cancel, sweep?.Mates);
        var flags = await FlagsOf(db, tankIds, cancel);
        var changes = new FlagWriter(db, now);
        var seen = new Dictionary<Guid, SharedCauseTank>();
        foreach (var record in records)
        {
            if (sweep is not null)
            {
                seen[record.Tank.Id] = SharedCauseTank.Of(record, now);
            }

            var own = flags[record.Tank.Id].ToList();
            var findings = Assessment.Assess(record, now);
            changes.Apply(record.Tank.Id, places.Of(record.Tank.Id).Programme.Id, Reconcile.Compare(
                findings, [.. own.Where(f => f.State == FlagState.Open)], [.. own.Where(f => f.State == FlagState.Settled)], flag => LastWord.IsClass(flag, record), now));
        }

        db.UnjudgedFacts.RemoveRange(facts);
        await using var transaction = claim ?? await db.Database.BeginTransactionAsync(cancel);
        if (sweep is not null)
        {
            await PastDays.RenewAsync(db, tankIds, now, cancel);
        }

        await db.SaveChangesAsync(cancel);
        await SaveWithLettersAsync(db, transaction, changes.CannotWait, now, cancel);
        feed.Tell(changes.Programmes);
        shared.Tell(facts.Count > 0 ? places.All.Select(p => p.Programme.Id).Distinct() : changes.Programmes);
        foreach (var (tank, one) in seen.Count == 0 ? [] : await SharedCauseTanks.WithAsync(db, seen, OpenIn(db), cancel))
        {
            sweep!.Judged[tank] = one;
        }

        return (changes.Opened, changes.Cleared);
    }

    private async Task SaveWithLettersAsync(
        HatcheryDb db, IDbContextTransaction transaction, IReadOnlyList<Flag> cannotWait, DateTime now, CancellationToken cancel)
    {
        if (cannotWait.Count == 0)
        {
            await transaction.CommitAsync(cancel);
            return;
        }

        await letters.WaitAsync(cancel);
        try
        {
            var tell = savedWith.ToList();
            foreach (var also in tell)
            {
                await also.AddAsync(db, cannotWait, now, cancel);
            }

            await db.SaveChangesAsync(cancel);
            await transaction.CommitAsync(cancel);
            tell.ForEach(also => also.Committed());
        }
        finally
        {
            letters.Release();
        }
    }

    /// <summary>What is kept from group to group while every open tank is judged.</summary>
    private sealed class Sweep
    {
        /// <summary>Each tank as the search for shared causes sees it.</summary>
        public ConcurrentDictionary<Guid, SharedCauseTank> Judged { get; } = new();

        /// <summary>As the first group with the lot found them; what a later one folds of its tanks is looked up by the next sweep.</summary>
        public LotMates Mates { get; } = new();
    }

    /// <summary>What stands at the tanks of this context, as it was just saved.</summary>
    private static ILookup<Guid, Flag> OpenIn(HatcheryDb db) => db.Flags.Local.Where(f => f.State == FlagState.Open).ToLookup(f => f.TankId!.Value);

    /// <summary>Open flags, and of the settled ones the newest of each kind.</summary>
    private static async Task<ILookup<Guid, Flag>> FlagsOf(HatcheryDb db, List<Guid> tankIds, CancellationToken cancel)
    {
        var open = await db.Flags.Where(f => f.TankId != null && tankIds.Contains(f.TankId.Value) && f.State == FlagState.Open).ToListAsync(cancel);
        var closed = await db.Flags.AsNoTracking()
            .Where(f => f.TankId != null && tankIds.Contains(f.TankId.Value) && f.State == FlagState.Settled && f.Settlement == Settlement.Closed)
            .GroupBy(f => new { f.TankId, f.Kind })
            .Select(g => g.OrderByDescending(f => f.StandsOn).First())
            .ToListAsync(cancel);
        return open.Concat(closed).ToLookup(f => f.TankId!.Value);
    }
}
