using System.Diagnostics;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>One judgement of every tank by the clock, beside one GROUP BY over the same readings.</summary>
public static class Judging
{
    private const string GroupBy =
        "SELECT tank_id, count(*), min(water_c), max(water_c), avg(water_c), min(at), max(at), avg(room_c) FROM readings GROUP BY tank_id";

    private static readonly ProgrammeClock Denver = ProgrammeClock.Of("America/Denver");

    public static async Task<Comparison> MeasureAsync(DatabaseKind kind, bool quick)
    {
        var (tanks, days) = quick ? (50, 14) : (500, 60);
        await using var place = await LoadPlace.CreateAsync(kind, tanks);
        await FillAsync(place, days);
        return await Comparison.RunAsync(
            FormattableString.Invariant($"judging {tanks} tanks, {tanks * days * 24:#,0} readings"), kind, quick ? 3 : 5, Comparison.AsSeconds,
            portal: async () =>
            {
                var report = await place.Portal.SweepAsync();
                return report.Tanks >= tanks ? new Side(report.Seconds) : throw new InvalidOperationException($"Only {report.Tanks} tanks were judged.");
            },
            bare: async () => new Side(await QueryAsync(place.Portal.Database)));
    }

    /// <summary>A reading each hour up to the last, with their days folded as the judge keeps them.</summary>
    private static async Task FillAsync(LoadPlace place, int days)
    {
        var from = TestWorld.Now.AddDays(-days);
        foreach (var tank in place.Tanks)
        {
            var rows = Enumerable.Range(0, days * 24).Select(hour => new BareReading(
                Guid.NewGuid(), tank.Id, from.AddHours(hour), from.AddHours(hour), 10 + (hour * 7 % 10 / 10.0), 20.5, hour % 3 == 0)).ToList();
            await BareReading.BulkAsync(place.Portal.Database, rows);
            var facts = rows.Select(r => new ReadingFact(
                r.At, new Observation { WaterC = r.WaterC, RoomC = r.RoomC, ChillerRunning = r.ChillerRunning }, ByClass: false, r.ReceivedAt)).ToList();
            await place.Portal.SeedAsync(db => DayFolding.AddAll(db, tank.Id, facts, Denver, TestWorld.Now));
        }

        await using var connection = BareReading.NewConnection(place.Portal.Database);
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = "ANALYZE";
        await command.ExecuteNonQueryAsync();
    }

    private static async Task<double> QueryAsync(DatabaseChoice choice)
    {
        await using var connection = BareReading.NewConnection(choice);
        await connection.OpenAsync();
        var watch = Stopwatch.StartNew();
        await using var command = connection.CreateCommand();
        command.CommandText = GroupBy;
        await using var rows = await command.ExecuteReaderAsync();
        while (await rows.ReadAsync())
        {
        }

        return watch.Elapsed.TotalSeconds;
    }
}
