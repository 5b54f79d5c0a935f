using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Readings;

/// <summary>What the database already knows that a batch has to be judged against. Two queries, whatever the batch's size.</summary>
public sealed class KnownReadings
{
    /// <summary>A last temperature older than this says nothing about what a tank can do since.</summary>
    private static readonly TimeSpan HabitAge = TimeSpan.FromDays(3);

    private readonly Dictionary<(Guid Tank, Guid Sender), Reading> readings = [];
    private readonly Dictionary<Guid, Tank> tanks = [];
    private readonly Dictionary<Guid, Guid> seasons = [];
    private readonly Dictionary<Guid, (double Water, DateTime At)> last = [];

    private KnownReadings()
    {
    }

    /// <param name="withRepeats">False to look up only what is corrected: a reading that is stored already will then be refused by the table.</param>
    public static async Task<KnownReadings> LoadAsync(
        HatcheryDb db, IReadOnlyList<IncomingReading> incoming, bool withRepeats, CancellationToken cancel)
    {
        var known = new KnownReadings();
        var tankIds = incoming.Select(i => i.TankId).Distinct().ToList();
        var ids = incoming.Where(_ => withRepeats).Select(i => (i.TankId, i.SenderId))
            .Concat(incoming.Where(i => i.Corrects is not null).Select(i => (i.TankId, i.Corrects!.Value))).Distinct().ToList();
        foreach (var reading in ids.Count == 0 ? [] : await db.ReadingsSentAs(ids).ToListAsync(cancel))
        {
            known.readings[(reading.TankId, reading.SenderId)] = reading;
        }

        await known.LoadTanksAsync(db, tankIds, incoming.Min(i => i.At), cancel);
        return known;
    }

    /// <summary>Each tank with its last believed temperature and the season of its newest eggs, in one query: this is done for every form sent.</summary>
    private async Task LoadTanksAsync(HatcheryDb db, List<Guid> tankIds, DateTime before, CancellationToken cancel)
    {
        var oldest = before > DateTime.MinValue + HabitAge ? before - HabitAge : DateTime.MinValue;
        var believed = db.Readings
            .Where(r => r.At < before && r.At >= oldest && r.State == ReadingState.Accepted && r.CorrectedBy == null && r.Seen.WaterC != null)
            .OrderByDescending(r => r.At);
        // Two look-ups a tank in its index; time and temperature asked for as one row number all readings of these days first, of every tank.
        var rows = await db.Tanks.AsNoTracking().Where(t => tankIds.Contains(t.Id))
            .Select(t => new
            {
                Tank = t,
                LastAt = believed.Where(r => r.TankId == t.Id).Select(r => (DateTime?)r.At).FirstOrDefault(),
                LastC = believed.Where(r => r.TankId == t.Id).Select(r => r.Seen.WaterC).FirstOrDefault(),
                Season = db.Receipts.Where(r => r.TankId == t.Id).OrderByDescending(r => r.At).Select(r => (Guid?)r.SeasonId).FirstOrDefault(),
            })
            .ToListAsync(cancel);
        foreach (var row in rows)
        {
            tanks[row.Tank.Id] = row.Tank;
            if (row is { LastAt: { } at, LastC: { } water })
            {
                last[row.Tank.Id] = (water, at);
            }

            if (row.Season is { } season)
            {
                seasons[row.Tank.Id] = season;
            }
        }
    }

    /// <summary>Takes over what an earlier batch, judged but not stored, would have left in the database.</summary>
    public void Follow(KnownReadings earlier, DateTime before)
    {
        foreach (var (tank, reading) in earlier.last.Where(l => l.Value.At < before && l.Value.At >= before - HabitAge && tanks.ContainsKey(l.Key)))
        {
            if (!last.TryGetValue(tank, out var known) || known.At < reading.At)
            {
                last[tank] = reading;
            }
        }
    }

    /// <summary>The season whose eggs a tank holds; null before any eggs came.</summary>
    public Guid? SeasonOf(Guid tankId) => seasons.TryGetValue(tankId, out var season) ? season : null;

    public Reading? Find(Guid tankId, Guid senderId) => readings.GetValueOrDefault((tankId, senderId));

    /// <summary>The outcome for an id that is already taken in this tank; null for a new one.</summary>
    public IntakeOutcome? FindRepeat(IncomingReading incoming) => Find(incoming.TankId, incoming.SenderId) switch
    {
        null => null,
        { } same when same.ContentHash == Intake.HashOf(incoming) => new IntakeOutcome.Duplicate(incoming.SenderId),
        _ => new IntakeOutcome.Rejected("id", "This id already belongs to another reading of this tank. To change a reading, send a new id and name this one in \"corrects\"."),
    };

    public string? WhyNotCorrectable(Guid tankId, Guid corrected) => Find(tankId, corrected) switch
    {
        null => "There is no reading with this id in this tank.",
        { CorrectedBy: not null } => "This reading was corrected already; correct the newer one.",
        { State: ReadingState.Withdrawn } => "This reading was withdrawn.",
        _ => null,
    };

    public TankHabits HabitsOf(IncomingReading incoming)
    {
        var tank = tanks[incoming.TankId];
        var room = incoming.Seen.RoomC ?? tank.RoomC;
        var changed = incoming.Seen.WaterChangedPercent > 0;
        return last.TryGetValue(tank.Id, out var before) && !changed && before.At < incoming.At && incoming.At - before.At <= HabitAge
            ? new TankHabits(before.Water, before.At, tank.Litres, tank.Jacket, room)
            : new TankHabits(null, null, tank.Litres, tank.Jacket, room);
    }

    /// <summary>Takes a new reading into account for the rest of the batch.</summary>
    public void Remember(IntakeOutcome outcome)
    {
        var reading = outcome switch
        {
            IntakeOutcome.Accepted a => a.Reading,
            IntakeOutcome.Asked a => a.Reading,
            _ => null,
        };
        if (reading is null)
        {
            return;
        }

        readings[(reading.TankId, reading.SenderId)] = reading;
        if (outcome is not IntakeOutcome.Accepted)
        {
            return;
        }

        if (reading.Corrects is { } id && Find(reading.TankId, id) is { } old)
        {
            old.CorrectedBy = reading.SenderId;
        }

        if (reading.Seen.WaterC is { } water)
        {
            last[reading.TankId] = (water, reading.At);
        }
    }

    /// <summary>The reading that this one corrects; the old one's day is judged again too.</summary>
    public Reading? Corrected(HatcheryDb db, Reading reading)
    {
        if (reading.Corrects is not { } id || Find(reading.TankId, id) is not { } old)
        {
            return null;
        }

        db.UnjudgedFacts.Add(new UnjudgedFact { TankId = old.TankId, At = old.At });
        return old;
    }
}
