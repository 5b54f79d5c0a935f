using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;
using Tankside.Hatchery.Readings;

namespace Tankside.Storage.Readings;

/// <summary>
/// The days of many tanks at once. A season of ten thousand tanks is a million rows: PostgreSQL hands them out as one array a column and
/// tank, which takes a fifth of the time that as many rows take. SQLite reads rows from its own memory and has no arrays.
/// </summary>
public static class DaysOfTanks
{
    private const string Columns = """
        SELECT tank_id, array_agg(day ORDER BY day), array_agg(readings ORDER BY day), array_agg(water_readings ORDER BY day),
          array_agg(first_at ORDER BY day), array_agg(last_at ORDER BY day), array_agg(squared_gap_hours ORDER BY day),
          array_agg(mean_c ORDER BY day), array_agg(min_c ORDER BY day), array_agg(max_c ORDER BY day),
          array_agg(dead_eggs ORDER BY day), array_agg(dead_alevins ORDER BY day), array_agg(dead_fry ORDER BY day),
          array_agg(hatched ORDER BY day), array_agg(swimming ORDER BY day)
        FROM tank_days WHERE tank_id = ANY ($1) GROUP BY tank_id
        """;

    private static readonly Dictionary<string, Share> Shares = Enum.GetValues<Share>().ToDictionary(s => s.ToString());

    /// <summary>Each tank's days, ascending; a tank without any is not in it.</summary>
    public static async Task<Dictionary<Guid, List<TankDay>>> DaysOfAsync(this HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        if (!db.Database.IsNpgsql())
        {
            return (await db.TankDays.AsNoTracking().Where(d => tankIds.Contains(d.TankId)).OrderBy(d => d.Day).ToListAsync(cancel))
                .GroupBy(d => d.TankId).ToDictionary(g => g.Key, g => g.ToList());
        }

        await db.Database.OpenConnectionAsync(cancel);
        try
        {
            await using var command = new NpgsqlCommand(
                Columns, (NpgsqlConnection)db.Database.GetDbConnection(), (NpgsqlTransaction?)db.Database.CurrentTransaction?.GetDbTransaction());
            command.Parameters.Add(new NpgsqlParameter { Value = tankIds.ToArray() });
            await using var rows = await command.ExecuteReaderAsync(cancel);
            var days = new Dictionary<Guid, List<TankDay>>();
            while (await rows.ReadAsync(cancel))
            {
                days[rows.GetGuid(0)] = Read(rows);
            }

            return days;
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    private static List<TankDay> Read(NpgsqlDataReader row)
    {
        var tank = row.GetGuid(0);
        var day = row.GetFieldValue<DateOnly[]>(1);
        var (readings, waterReadings) = (row.GetFieldValue<int[]>(2), row.GetFieldValue<int[]>(3));
        var (first, last, gaps) = (row.GetFieldValue<DateTime[]>(4), row.GetFieldValue<DateTime[]>(5), row.GetFieldValue<double[]>(6));
        var (mean, min, max) = (row.GetFieldValue<double?[]>(7), row.GetFieldValue<double?[]>(8), row.GetFieldValue<double?[]>(9));
        var (eggs, alevins, fry) = (row.GetFieldValue<int?[]>(10), row.GetFieldValue<int?[]>(11), row.GetFieldValue<int?[]>(12));
        var (hatched, swimming) = (row.GetFieldValue<string?[]>(13), row.GetFieldValue<string?[]>(14));
        var days = new List<TankDay>(day.Length);
        for (var i = 0; i < day.Length; i++)
        {
            days.Add(new TankDay
            {
                TankId = tank,
                Day = day[i],
                Readings = readings[i],
                WaterReadings = waterReadings[i],
                FirstAt = first[i],
                LastAt = last[i],
                SquaredGapHours = gaps[i],
                MeanC = mean[i],
                MinC = min[i],
                MaxC = max[i],
                DeadEggs = eggs[i],
                DeadAlevins = alevins[i],
                DeadFry = fry[i],
                Hatched = ShareOf(hatched[i]),
                Swimming = ShareOf(swimming[i]),
            });
        }

        return days;
    }

    private static Share? ShareOf(string? name) => name is null ? null : Shares[name];
}
