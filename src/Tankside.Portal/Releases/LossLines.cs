using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Readings;
using Tankside.Portal.Releases.Ledger;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>
/// The ledger lines of the dead that a reading counted. A correction takes the old reading's lines back with negative ones and adds its own,
/// so that the ledger is only ever added to.
/// </summary>
public sealed class LossLines : ISavedWithReading
{
    public void Add(HatcheryDb db, Reading reading, Reading? corrected, Guid? season)
    {
        if (season is not { } of)
        {
            return; // No eggs ever came: there is nothing to account for.
        }

        if (corrected is { State: ReadingState.Accepted })
        {
            db.Ledger.AddRange(Lines(corrected, of, reading, sign: -1));
        }

        db.Ledger.AddRange(Of(reading, of));
    }

    /// <summary>Each line of these readings is taken back by an opposite one that names it; what a person has corrected already stays as it is.</summary>
    public async Task TakeBackAsync(HatcheryDb db, IReadOnlyList<Reading> withdrawn, Guid by, DateTime now, CancellationToken cancel)
    {
        var (tanks, senders) = (withdrawn.Select(r => r.TankId).Distinct().ToList(), withdrawn.Select(r => r.SenderId).ToList());
        var lines = await db.Ledger.AsNoTracking()
            .Where(e => tanks.Contains(e.TankId) && e.Reading != null && senders.Contains(e.Reading.Value) && e.CorrectsId == null
                && !db.Ledger.Any(c => c.CorrectsId == e.Id))
            .ToListAsync(cancel);
        db.Ledger.AddRange(lines.Select(line => new LedgerEntry
        {
            SenderId = CorrectLine.OppositeId(line.Id),
            SeasonId = line.SeasonId,
            TankId = line.TankId,
            Kind = line.Kind,
            Count = -line.Count,
            At = line.At,
            EnteredAt = now,
            EnteredBy = by,
            CountedBy = line.CountedBy,
            Reading = line.Reading,
            CorrectsId = line.Id,
            Note = "The import that brought it was taken back.",
        }));
    }

    /// <summary>The lines of a reading that corrects none.</summary>
    public static IEnumerable<LedgerEntry> Of(Reading reading, Guid season) => Lines(reading, season, reading, sign: 1);

    private static IEnumerable<LedgerEntry> Lines(Reading of, Guid season, Reading enteredBy, int sign)
    {
        (LedgerKind Kind, int? Count)[] counts =
        [
            (LedgerKind.EggLoss, of.Seen.DeadEggs),
            (LedgerKind.AlevinLoss, of.Seen.DeadAlevins),
            (LedgerKind.FryLoss, of.Seen.DeadFry),
        ];
        return counts.Where(c => c.Count > 0).Select(c => new LedgerEntry
        {
            SeasonId = season,
            TankId = of.TankId,
            Kind = c.Kind,
            Count = sign * c.Count!.Value,
            At = of.At,
            EnteredAt = enteredBy.ReceivedAt,
            EnteredBy = enteredBy.EnteredBy,
            CountedBy = CountMethod.Hand,
            Reading = of.SenderId,
        });
    }
}
