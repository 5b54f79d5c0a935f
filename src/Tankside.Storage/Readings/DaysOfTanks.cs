using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Tankside.Hatchery.Readings;

namespace Tankside.Storage.Readings;

/// <summary>The days of tanks, as judging reads them: a season of ten thousand tanks is more than a million of them.</summary>
public sealed class DaysOfTanks
{
    /// <summary>From so many tanks on what is past is read as it was packed, and the rest with the driver's own reader: column by column it takes a third of the time.</summary>
    private const int Many = 20;

    private static readonly Compiled<IReadOnlyList<Guid>, TankDay> Few = new((db, tankIds) =>
        db.TankDays.AsNoTracking().Where(d => tankIds.Contains(d.TankId)).OrderBy(d => d.Day));

    private readonly Dictionary<Guid, PastDays> past;
    private readonly ILookup<Guid, TankDay> rows;

    private DaysOfTanks(Dictionary<Guid, PastDays> past, IEnumerable<TankDay> rows) => (this.past, this.rows) = (past, rows.ToLookup(d => d.TankId));

    public static async Task<DaysOfTanks> LoadAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        if (tankIds.Count < Many)
        {
            return new DaysOfTanks([], await Few.ToListAsync(db, tankIds, cancel));
        }

        // Before the rows: what is packed between the two questions is then read as rows, and not missed.
        var past = await db.PastDays.AsNoTracking().Where(p => tankIds.Contains(p.TankId)).ToDictionaryAsync(p => p.TankId, cancel);
        var whole = tankIds.Where(id => !past.ContainsKey(id)).ToList();
        var rows = whole.Count == 0 ? [] : await ReadAsync(db, db.TankDays.Where(d => whole.Contains(d.TankId)), cancel);
        if (past.Count > 0)
        {
            var (packed, earliest) = (past.Keys.ToList(), past.Values.Min(p => p.Until));
            rows.AddRange(await ReadAsync(db, db.TankDays.Where(d => packed.Contains(d.TankId) && d.Day >= earliest), cancel));
        }

        return new DaysOfTanks(past, rows);
    }

    /// <summary>A tank's days, ascending; made each time they are asked for from what is packed, which takes far less room.</summary>
    public IReadOnlyList<TankDay> Of(Guid tankId)
    {
        if (past.GetValueOrDefault(tankId) is not { } packed)
        {
            return [.. rows[tankId]];
        }

        var days = new List<TankDay>();
        DayPack.Read(packed.Packed, tankId, days);
        days.AddRange(rows[tankId].Where(d => d.Day >= packed.Until));
        return days;
    }

    /// <summary>Many days, those of each tank ascending; not tracked.</summary>
    internal static async Task<List<TankDay>> ReadAsync(HatcheryDb db, IQueryable<TankDay> days, CancellationToken cancel)
    {
        await db.Database.OpenConnectionAsync(cancel);
        try
        {
            await using var command = days.OrderBy(d => d.TankId).ThenBy(d => d.Day).CreateDbCommand();
            command.Transaction = db.Database.CurrentTransaction?.GetDbTransaction();
            await using var reader = await command.ExecuteReaderAsync(cancel);
            var columns = new Columns(reader);
            var read = new List<TankDay>();
            while (await reader.ReadAsync(cancel))
            {
                read.Add(columns.Day());
            }

            return read;
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    /// <summary>Where each column stands; a test holds that a day read so equals the one that EF reads.</summary>
    private sealed class Columns(DbDataReader reader)
    {
        private readonly int tank = reader.GetOrdinal("tank_id"), day = reader.GetOrdinal("day");
        private readonly int readings = reader.GetOrdinal("readings"), water = reader.GetOrdinal("water_readings");
        private readonly int first = reader.GetOrdinal("first_at"), last = reader.GetOrdinal("last_at"), gaps = reader.GetOrdinal("squared_gap_hours");
        private readonly int mean = reader.GetOrdinal("mean_c"), min = reader.GetOrdinal("min_c"), max = reader.GetOrdinal("max_c");
        private readonly int eggs = reader.GetOrdinal("dead_eggs"), alevins = reader.GetOrdinal("dead_alevins"), fry = reader.GetOrdinal("dead_fry");
        private readonly int hatched = reader.GetOrdinal("hatched"), swimming = reader.GetOrdinal("swimming");

        public TankDay Day() => new()
        {
            TankId = reader.GetGuid(tank),
            Day = reader.GetFieldValue<DateOnly>(day),
            Readings = reader.GetInt32(readings),
            WaterReadings = reader.GetInt32(water),
            FirstAt = Instant(first),
            LastAt = Instant(last),
            SquaredGapHours = reader.GetDouble(gaps),
            MeanC = Number(mean),
            MinC = Number(min),
            MaxC = Number(max),
            DeadEggs = Count(eggs),
            DeadAlevins = Count(alevins),
            DeadFry = Count(fry),
            Hatched = ShareOf(hatched),
            Swimming = ShareOf(swimming),
        };

        private DateTime Instant(int column) => DateTime.SpecifyKind(reader.GetDateTime(column), DateTimeKind.Utc);

        private double? Number(int column) => reader.IsDBNull(column) ? null : reader.GetDouble(column);

        private int? Count(int column) => reader.IsDBNull(column) ? null : reader.GetInt32(column);

        private Share? ShareOf(int column) => reader.IsDBNull(column) ? null : Enum.Parse<Share>(reader.GetString(column));
    }
}
