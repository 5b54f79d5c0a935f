using System.Diagnostics;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
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

    public static Task<Comparison> MeasureAsync(DatabaseKind kind, bool quick) => quick ? BesideGroupByAsync(kind, 50, 14, 3) : BesideGroupByAsync(kind, 500, 60, 5);

    /// <summary>A country's worth: 28.8 million readings. It takes the database a quarter of an hour to be filled, and twelve gigabytes; quick is a fifth of it.</summary>
    public static Task<Comparison> CountryAsync(DatabaseKind kind, bool quick) => BesideGroupByAsync(kind, quick ? 2000 : 10_000, 120, 9);

    /// <summary>The same tanks and days with a reading each half hour, beside a reading each hour: judging should not notice.</summary>
    public static async Task<Comparison> GrowthAsync(DatabaseKind kind, bool quick)
    {
        var (tanks, days) = quick ? (50, 14) : (500, 30);
        await using var often = await LoadPlace.CreateAsync(kind, tanks);
        await using var seldom = await LoadPlace.CreateAsync(kind, tanks);
        await FillAsync(often, often.Tanks, days, perHour: 2);
        await FillAsync(seldom, seldom.Tanks, days, perHour: 1);
        return await Comparison.RunAsync(
            FormattableString.Invariant($"judging {tanks} tanks, a reading each half hour beside each hour"), kind, quick ? 3 : 25, Comparison.AsSeconds,
            portal: () => SweepAsync(often), bare: () => SweepAsync(seldom));
    }

    private static async Task<Comparison> BesideGroupByAsync(DatabaseKind kind, int tanks, int days, int rounds)
    {
        await using var place = await LoadPlace.CreateAsync(kind, tanks);
        await FillAsync(place, place.Tanks, days, perHour: 1);
        return await Comparison.RunAsync(
            FormattableString.Invariant($"judging {tanks:#,0} tanks, {(long)tanks * days * 24:#,0} readings"), kind, rounds, Comparison.AsSeconds,
            portal: () => SweepAsync(place),
            bare: async () => new Side(await QueryAsync(place.Portal.Database)));
    }

    private static async Task<Side> SweepAsync(LoadPlace place)
    {
        var report = await place.Portal.SweepAsync();
        return report.Tanks >= place.Tanks.Count ? new Side(report.Seconds) : throw new InvalidOperationException($"Only {report.Tanks} tanks were judged.");
    }

    /// <summary>Readings at even distances up to the last, with their days folded as the judge keeps them.</summary>
    public static async Task FillAsync(LoadPlace place, IEnumerable<Tank> tanks, int days, int perHour)
    {
        var from = TestWorld.Now.AddDays(-days);
        foreach (var (number, tank) in tanks.Index())
        {
            // All are well but for every twenty-fifth, whose chiller has stopped at the end.
            var stopped = number % 25 == 0 ? 3 : 0;
            // What is read goes by the hour, so that the same tanks read twice as often are as well as before.
            var rows = Enumerable.Range(0, days * 24 * perHour).Select(i => (At: from.AddHours((double)i / perHour), I: i / perHour)).Select(x => new BareReading(
                Guid.NewGuid(), tank.Id, x.At, x.At, 10.3 + (x.I * 7 % 5 / 10.0), 20.5, (x.I + stopped) % 6 >= 3)).ToList();
            await BareReading.BulkAsync(place.Portal.Database, rows);
            var facts = rows.Select(r => new ReadingFact(
                r.At, new Observation { WaterC = r.WaterC, RoomC = r.RoomC, ChillerRunning = r.ChillerRunning }, ByClass: false, r.ReceivedAt)).ToList();
            var (folded, recent) = DayFolding.FoldAll(tank.Id, facts, Denver, TestWorld.Now);
            await using var db = place.Portal.OpenDb();
            await db.SaveWithAsync([folded, recent], CancellationToken.None);
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
