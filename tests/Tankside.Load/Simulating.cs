using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Demo.Simulated;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>
/// A made-up season written into an empty database, beside the driver alone that writes as many readings of as many tanks into another: the
/// portal also lives through the season, folds its days and keeps its ledger.
/// </summary>
public static class Simulating
{
    private const int Together = 20_000;

    public static Task<Comparison> MeasureAsync(DatabaseKind kind, bool quick)
    {
        var size = quick ? new SimulatedSize(20, 20, 7, 60) : new SimulatedSize(kind == DatabaseKind.Sqlite ? 60 : 200, 60, 7, 60);
        var readings = 0L;
        return Comparison.RunAsync(
            string.Create(CultureInfo.InvariantCulture, $"simulate, {size.Tanks} tanks, {size.Days} days, a reading each hour"), kind, quick ? 3 : 5,
            s => Comparison.PerSecond("rows", s),
            portal: async () =>
            {
                await using var database = await TestDatabase.CreateAsync(kind);
                var report = await new SimulatedSeason(new Contexts(database), database.Choice).WriteAsync(size, TestWorld.Now, (_, _) => { }, CancellationToken.None);
                readings = report.Readings;
                return new Side(report.Seconds / report.Rows);
            },
            bare: async () =>
            {
                await using var database = await TestDatabase.CreateAsync(kind);
                var tanks = await TanksAsync(database, size);
                var watch = Stopwatch.StartNew();
                foreach (var some in Rows(tanks, readings).Chunk(Together))
                {
                    await BareReading.BulkAsync(database.Choice, some);
                }

                return new Side(watch.Elapsed.TotalSeconds / readings);
            });
    }

    /// <summary>The same tanks, without their seasons.</summary>
    private static async Task<IReadOnlyList<Tank>> TanksAsync(TestDatabase database, SimulatedSize size)
    {
        var programme = new SimulatedProgramme(size, TestWorld.Now);
        await using var db = database.CreateDbContext();
        db.AddRange(programme.Rows);
        await db.SaveChangesAsync();
        return [.. programme.Rooms.Select(r => r.Tank)];
    }

    private static IEnumerable<BareReading> Rows(IReadOnlyList<Tank> tanks, long count)
    {
        var perTank = (int)Math.Ceiling((double)count / tanks.Count);
        for (var i = 0; i < count; i++)
        {
            var at = TestProgramme.DeliveredAt.AddHours(i % perTank);
            yield return new BareReading(Guid.NewGuid(), tanks[i / perTank].Id, at, at, 10 + (i * 7 % 10 / 10.0), 20.5, i % 3 == 0);
        }
    }

    private sealed class Contexts(TestDatabase database) : IDbContextFactory<HatcheryDb>
    {
        public HatcheryDb CreateDbContext() => database.CreateDbContext();
    }
}
