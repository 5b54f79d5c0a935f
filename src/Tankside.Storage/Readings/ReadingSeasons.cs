using Microsoft.EntityFrameworkCore;

namespace Tankside.Storage.Readings;

/// <summary>On PostgreSQL the readings of a season, from August to July, lie in a part of their own; SQLite has one table.</summary>
public static class ReadingSeasons
{
    /// <summary>Makes room for the readings of this season and the next, where they have none yet.</summary>
    public static async Task KeepAheadAsync(HatcheryDb db, DateTime now, CancellationToken cancel)
    {
        if (db.Database.IsNpgsql())
        {
            await db.Database.ExecuteSqlAsync($"SELECT add_readings_season(season_of({now})), add_readings_season(season_of({now}) + 1)", cancel);
        }
    }
}
