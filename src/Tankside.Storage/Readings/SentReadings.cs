using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;

namespace Tankside.Storage.Readings;

public static class SentReadings
{
    /// <summary>The readings that are stored under these ids of their senders, each in its tank.</summary>
    public static IQueryable<Reading> ReadingsSentAs(this HatcheryDb db, IReadOnlyList<(Guid Tank, Guid Sender)> ids)
    {
        var tanks = ids.Select(i => i.Tank).ToArray();
        var senders = ids.Select(i => i.Sender).ToArray();
        if (!db.Database.IsNpgsql())
        {
            return db.Readings.Where(r => tanks.Contains(r.TankId) && senders.Contains(r.SenderId));
        }

        // Tanks and senders listed apart are looked up each with each; of a thousand readings that is a million.
        var known = db.Database.SqlQuery<long>(
            $"SELECT r.id AS \"Value\" FROM readings AS r JOIN unnest({tanks}, {senders}) AS sent (tank, sender) ON r.tank_id = sent.tank AND r.sender_id = sent.sender");
        return db.Readings.Where(r => known.Contains(r.Id));
    }
}
