using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Readings;

/// <summary>What the database already knows that a batch has to be judged against. Four queries, whatever the batch's size.</summary>
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

    public static async Task<KnownReadings> LoadAsync(HatcheryDb db, IReadOnlyList<IncomingReading> incoming, CancellationToken cancel)
    {
        var known = new KnownReadings();
        var tankIds = incoming.Select(i => i.TankId).Distinct().ToList();
        var senderIds = incoming.Select(i => i.SenderId).Concat(incoming.Select(i => i.Corrects).OfType<Guid>()).Distinct().ToList();
        foreach (var reading in await db.Readings.Where(r => tankIds.Contains(r.TankId) && senderIds.Contains(r.SenderId)).ToListAsync(cancel))
        {
            known.readings[(reading.TankId, reading.SenderId)] = reading;
        }

        foreach (var tank in await db.Tanks.AsNoTracking().Where(t => tankIds.Contains(t.Id)).ToListAsync(cancel))
        {
            known.tanks[tank.Id] = tank;
        }

        await known.LoadLastAsync(db, tankIds, incoming.Min(i => i.At), cancel);
        await known.LoadSeasonsAsync(db, tankIds, cancel);
        return known;
    }

    private async Task LoadLastAsync(HatcheryDb db, List<Guid> tankIds, DateTime before, CancellationToken cancel)
    {
        var from = before - HabitAge;
        var rows = await db.Tanks.Where(t => tankIds.Contains(t.Id))
            .Select(t => db.Readings
                .Where(r => r.TankId == t.Id && r.At < before && r.At >= from
                    && r.State == ReadingState.Accepted && r.CorrectedBy == null && r.Seen.WaterC != null)
                .OrderByDescending(r => r.At)
                .Select(r => new { r.TankId, r.Seen.WaterC, r.At })
                .FirstOrDefault())
            .ToListAsync(cancel);
        foreach (var row in rows.Where(r => r is not null))
        {
            last[row!.TankId] = (row.WaterC!.Value, row.At);
        }
    }

    private async Task LoadSeasonsAsync(HatcheryDb db, List<Guid> tankIds, CancellationToken cancel)
    {
        var receipts = await db.Receipts.AsNoTracking().Where(r => tankIds.Contains(r.TankId))
            .Select(r => new { r.TankId, r.SeasonId, r.At }).ToListAsync(cancel);
        foreach (var receipt in receipts.OrderBy(r => r.At))
        {
            seasons[receipt.TankId] = receipt.SeasonId;
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
