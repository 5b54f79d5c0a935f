using System.Diagnostics;
using System.Globalization;
using System.Text;
using Npgsql;
using Tankside.Portal.Demo.Simulated;
using Tankside.Portal.Releases;
using Tankside.Portal.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>
/// The season totals of 10,000 tanks as CSV, from the ledger, beside one COPY (SELECT ...) TO STDOUT that sums the same ledger into the same
/// rows: sums by tank, the last count and what was entered after it, places, lots, hatches and releases joined.
/// </summary>
public static class TotalsFile
{
    private const string Sql = """
        COPY (
          WITH counts AS (
            SELECT DISTINCT ON (tank_id) tank_id, at, id, count FROM ledger
            WHERE kind = 'Counted' AND corrects_id IS NULL AND id NOT IN (SELECT corrects_id FROM ledger WHERE corrects_id IS NOT NULL)
            ORDER BY tank_id, at DESC, id DESC),
          sums AS (
            SELECT l.tank_id,
              sum(l.count) FILTER (WHERE kind = 'Received') AS received, sum(l.count) FILTER (WHERE kind = 'DeadOnArrival') AS dead_on_arrival,
              sum(l.count) FILTER (WHERE kind = 'EggLoss') AS egg_losses, sum(l.count) FILTER (WHERE kind = 'AlevinLoss') AS alevin_losses,
              sum(l.count) FILTER (WHERE kind = 'FryLoss') AS fry_losses, sum(l.count) FILTER (WHERE kind = 'PutDown') AS put_down,
              sum(l.count) FILTER (WHERE kind = 'Sampled') AS sampled, sum(l.count) FILTER (WHERE kind = 'TransferredIn') AS transferred_in,
              sum(l.count) FILTER (WHERE kind = 'TransferredOut') AS transferred_out, sum(l.count) FILTER (WHERE kind = 'Released') AS released,
              max(c.count) + coalesce(sum(CASE WHEN kind IN ('Received', 'TransferredIn') THEN l.count WHEN kind = 'Counted' THEN 0 ELSE -l.count END)
                FILTER (WHERE l.at > c.at), 0) AS counted
            FROM ledger l LEFT JOIN counts c USING (tank_id) GROUP BY l.tank_id),
          hatched AS (SELECT tank_id, min(day) AS day FROM tank_days WHERE hatched IN ('Half', 'Most', 'All') GROUP BY tank_id),
          let_go AS (
            SELECT r.tank_id, min(r.at) AS at, string_agg(DISTINCT s.name, '; ') AS sites, string_agg(DISTINCT p.number, '; ') AS permits
            FROM releases r JOIN release_sites s ON s.id = r.site_id JOIN permits p ON p.id = r.permit_id WHERE r.withdrawn_at IS NULL GROUP BY r.tank_id)
          SELECT p.name, s.name, sc.name, room.name, t.code, lot.code, lot.species, sums.*, hatched.day, let_go.at, let_go.sites, let_go.permits,
            round(100.0 * sums.released / nullif(sums.received, 0), 2)
          FROM tanks t JOIN classrooms room ON room.id = t.classroom_id JOIN schools sc ON sc.id = room.school_id
            JOIN programmes p ON p.id = t.programme_id JOIN receipts re ON re.tank_id = t.id JOIN egg_lots lot ON lot.id = re.lot_id
            JOIN seasons s ON s.id = re.season_id LEFT JOIN sums ON sums.tank_id = t.id LEFT JOIN hatched ON hatched.tank_id = t.id
            LEFT JOIN let_go ON let_go.tank_id = t.id
          ORDER BY t.code) TO STDOUT (FORMAT csv)
        """;

    public static async Task<Comparison> MeasureAsync(bool quick)
    {
        // Classes alone read: only what they count reaches the ledger.
        var size = new SimulatedSize(quick ? 300 : 10_000, quick ? 60 : 120, 11, null);
        await using var host = await PortalHost.CreateAsync(DatabaseKind.PostgreSQL);
        await host.CallAsync<IServiceProvider, SimulatedReport>(services => Microsoft.Extensions.DependencyInjection.ActivatorUtilities
            .CreateInstance<SimulatedSeason>(services).WriteAsync(size, TestWorld.Now, (_, _) => { }, CancellationToken.None));
        await using var connection = new NpgsqlConnection(host.Database.ConnectionString);
        await connection.OpenAsync();
        await using (var analyze = new NpgsqlCommand("VACUUM ANALYZE", connection))
        {
            await analyze.ExecuteNonQueryAsync();
        }

        var programme = await host.CallAsync<IServiceProvider, Guid>(_ => ProgrammeAsync(host));
        return await Comparison.RunAsync(
            string.Create(CultureInfo.InvariantCulture, $"season totals of {size.Tanks:#,0} tanks as CSV"), DatabaseKind.PostgreSQL, quick ? 3 : 7, Comparison.AsSeconds,
            portal: () => PortalAsync(host, programme, size), bare: () => BareAsync(connection, size));
    }

    private static async Task<Guid> ProgrammeAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return db.Programmes.Single().Id;
    }

    private static async Task<Side> PortalAsync(PortalHost host, Guid programme, SimulatedSize size)
    {
        var watch = Stopwatch.StartNew();
        var totals = await host.CallAsync<TotalsOfSeason, Hatchery.Releases.SeasonTotals?>(t => t.LoadAsync(programme, null, CancellationToken.None));
        using var file = new MemoryStream();
        await Portal.Releases.Files.TotalsFile.All[0].WriteAsync(totals!, file, null, CancellationToken.None);
        var side = new Side(watch.Elapsed.TotalSeconds);
        Check(Encoding.UTF8.GetString(file.ToArray()), size.Tanks + 1);
        return side;
    }

    private static async Task<Side> BareAsync(NpgsqlConnection connection, SimulatedSize size)
    {
        var watch = Stopwatch.StartNew();
        using var rows = await connection.BeginTextExportAsync(Sql);
        var text = await rows.ReadToEndAsync();
        var side = new Side(watch.Elapsed.TotalSeconds);
        Check(text, size.Tanks);
        return side;
    }

    private static void Check(string text, int lines)
    {
        if (text.TrimEnd().Split('\n').Length is var found && found != lines)
        {
            throw new InvalidOperationException($"{found} lines instead of {lines}.");
        }
    }
}
