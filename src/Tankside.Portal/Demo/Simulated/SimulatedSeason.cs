using System.Diagnostics;
using System.Threading.Channels;
using Microsoft.EntityFrameworkCore;
using Tankside.Storage;

namespace Tankside.Portal.Demo.Simulated;

/// <summary>What was written and how long it took.</summary>
public sealed record SimulatedReport(long Rows, long Readings, double Seconds);

/// <summary>
/// Writes a made-up season of any size into an empty database, to see how an installation of that size behaves. Tanks are lived through on
/// one side and written on the other, some tanks in a transaction; a run that is stopped leaves a programme that lacks tanks' readings, and
/// no half tank.
/// </summary>
public sealed class SimulatedSeason(IDbContextFactory<HatcheryDb> databases, DatabaseChoice database)
{
    /// <summary>Readings written in one transaction, about.</summary>
    private const int Together = 20_000;

    /// <summary>PostgreSQL keeps an index while another connection fills its row; SQLite has one writer.</summary>
    private int Writers => database.Kind == DatabaseKind.PostgreSQL ? 2 : 1;

    /// <param name="progress">Told how many of how many tanks are written; from several threads, one at a time.</param>
    public async Task<SimulatedReport> WriteAsync(SimulatedSize size, DateTime now, Action<int, int> progress, CancellationToken cancel)
    {
        var watch = Stopwatch.StartNew();
        var programme = new SimulatedProgramme(size, now);
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            db.AddRange(programme.Rows);
            await db.SaveChangesAsync(cancel);
        }

        var (rows, readings, done) = ((long)programme.Rows.Count, 0L, 0);
        var told = Channel.CreateBounded<List<(SimulatedRoom Room, SimulatedRows Rows)>>(Writers * 2);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        var telling = Task.Run(() => TellAsync(programme, told.Writer, stop.Token), stop.Token);
        var writing = Enumerable.Range(0, Writers).Select(_ => Task.Run(async () =>
        {
            await foreach (var tanks in told.Reader.ReadAllAsync(stop.Token))
            {
                var (all, read) = await WriteAsync(tanks, stop.Token);
                lock (programme)
                {
                    (rows, readings, done) = (rows + all, readings + read, done + tanks.Count);
                    progress(done, size.Tanks);
                }
            }
        }, stop.Token)).ToList();
        try
        {
            await foreach (var one in Task.WhenEach([telling, .. writing]))
            {
                await one; // The first that fails ends the others: nobody waits for a reader that is gone.
            }
        }
        catch
        {
            await stop.CancelAsync();
            throw;
        }

        return new SimulatedReport(rows, readings, watch.Elapsed.TotalSeconds);
    }

    private static async Task TellAsync(
        SimulatedProgramme programme, ChannelWriter<List<(SimulatedRoom Room, SimulatedRows Rows)>> to, CancellationToken cancel)
    {
        var tanks = new List<(SimulatedRoom, SimulatedRows)>();
        var readings = 0;
        foreach (var room in programme.Rooms)
        {
            var rows = SimulatedTank.Tell(programme, room);
            tanks.Add((room, rows));
            readings += rows.Readings.Count;
            if (readings >= Together)
            {
                await to.WriteAsync(tanks, cancel);
                (tanks, readings) = ([], 0);
            }
        }

        if (tanks.Count > 0)
        {
            await to.WriteAsync(tanks, cancel);
        }

        to.Complete();
    }

    private async Task<(int Rows, int Readings)> WriteAsync(List<(SimulatedRoom Room, SimulatedRows Rows)> tanks, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ChangeTracker.AutoDetectChangesEnabled = false;
        foreach (var (room, _) in tanks.Where(t => t.Room.Tank.ClosedAt is not null))
        {
            db.Attach(room.Tank).Property(t => t.ClosedAt).IsModified = true;
        }

        IReadOnlyList<object>[] tables =
        [
            [.. tanks.SelectMany(t => t.Rows.Readings)], [.. tanks.Select(t => t.Rows.Receipt)], [.. tanks.Select(t => t.Rows.Release).OfType<object>()],
            [.. tanks.SelectMany(t => t.Rows.Ledger)], [.. tanks.SelectMany(t => t.Rows.Days)], [.. tanks.SelectMany(t => t.Rows.Recent)],
        ];
        await db.SaveWithAsync(tables, cancel);
        return (tables.Sum(t => t.Count), tables[0].Count);
    }
}
