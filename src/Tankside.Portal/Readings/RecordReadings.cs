using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Telemetry;
using Tankside.Storage;

namespace Tankside.Portal.Readings;

/// <summary>
/// The one way in for readings: form, API, phone call and import all end here. Load what is known, judge, save everything that goes
/// together in one transaction, then say that there is something new to judge.
/// </summary>
public sealed class RecordReadings(
    IDbContextFactory<HatcheryDb> databases, TimeProvider time, NewFacts newFacts, IEnumerable<ISavedWithReading> savedWith, PortalMeter meter)
{
    /// <summary>How often a batch is tried again when another sender stored one of its readings in between.</summary>
    private const int Tries = 5;

    public async Task<IntakeOutcome> RecordAsync(IncomingReading reading, CancellationToken cancel) =>
        (await RecordAsync([reading], cancel))[0];

    /// <summary>Outcomes in the order of the readings. What is answered as accepted is committed.</summary>
    public async Task<IReadOnlyList<IntakeOutcome>> RecordAsync(IReadOnlyList<IncomingReading> incoming, CancellationToken cancel)
    {
        if (incoming.Count == 0)
        {
            return [];
        }

        for (var attempt = 1; ; attempt++)
        {
            try
            {
                if (await TryRecordAsync(incoming, isFirst: attempt == 1, cancel) is { } outcomes)
                {
                    Count(incoming, outcomes);
                    return outcomes;
                }
            }
            catch (DbUpdateException e) when (attempt < Tries && (e is DbUpdateConcurrencyException || e.IsUniqueViolation()))
            {
                // One of these is stored already, by this sender or somebody else meanwhile; judged again, it will come out as a duplicate.
            }
        }
    }

    private void Count(IReadOnlyList<IncomingReading> incoming, IReadOnlyList<IntakeOutcome> outcomes)
    {
        foreach (var ((by, became), count) in incoming.Zip(outcomes, (i, o) => (i.Source, Became: o.GetType().Name)).CountBy(x => x))
        {
            meter.Read(by.ToString().ToLowerInvariant(), became.ToLowerInvariant(), count);
        }
    }

    /// <summary>What would become of a batch; nothing is stored.</summary>
    /// <param name="earlier">What the batch before it, foreseen too, would have left; null for the first.</param>
    /// <param name="reader">Whom refusals are said to.</param>
    public async Task<(IReadOnlyList<IntakeOutcome> Outcomes, KnownReadings Known)> ForeseeAsync(
        IReadOnlyList<IncomingReading> incoming, KnownReadings? earlier, CancellationToken cancel, Say? reader = null)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var known = await KnownReadings.LoadAsync(db, incoming, withRepeats: true, cancel);
        if (earlier is not null)
        {
            known.Follow(earlier, incoming.Min(i => i.At));
        }

        return (DecideAll(incoming, known, reader), known);
    }

    /// <summary>Null when it has to be looked at more closely.</summary>
    private async Task<IReadOnlyList<IntakeOutcome>?> TryRecordAsync(IReadOnlyList<IncomingReading> incoming, bool isFirst, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        // Of a large batch hardly ever one was sent before, and the table knows it anyway: only when it says so are they all looked up. So are
        // they when one would be refused, for a repeat is answered as one whatever would be said of it today.
        var hopes = isFirst && db.TakesStreamsOf(incoming.Count);
        var known = await KnownReadings.LoadAsync(db, incoming, withRepeats: !hopes, cancel);
        var outcomes = DecideAll(incoming, known);
        if (hopes && outcomes.Any(o => o is IntakeOutcome.Rejected))
        {
            return null;
        }

        await SaveAsync(db, outcomes, known, cancel);
        if (outcomes.Any(o => o is IntakeOutcome.Accepted))
        {
            newFacts.Tell();
        }

        return outcomes;
    }

    /// <summary>In the order they were read, so that each is judged against the one before it; answered in the order sent.</summary>
    private IntakeOutcome[] DecideAll(IReadOnlyList<IncomingReading> incoming, KnownReadings known, Say? reader = null)
    {
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var outcomes = new IntakeOutcome[incoming.Count];
        foreach (var index in Enumerable.Range(0, incoming.Count).OrderBy(i => incoming[i].At).ThenBy(i => i))
        {
            outcomes[index] = Decide(incoming[index], known, now, reader);
        }

        return outcomes;
    }

    private static IntakeOutcome Decide(IncomingReading incoming, KnownReadings known, DateTime now, Say? reader)
    {
        if (known.FindRepeat(incoming) is { } repeat)
        {
            return repeat;
        }

        if (Intake.Refusals(incoming, known, now, reader) is { Count: > 0 } errors)
        {
            return new IntakeOutcome.Rejected(errors);
        }

        var outcome = Intake.Judge(incoming, known.HabitsOf(incoming), now);
        known.Remember(outcome);
        return outcome;
    }

    private async Task SaveAsync(HatcheryDb db, IntakeOutcome[] outcomes, KnownReadings known, CancellationToken cancel)
    {
        var readings = new List<Reading>(outcomes.Length);
        var facts = new NewDays();
        foreach (var outcome in outcomes)
        {
            switch (outcome)
            {
                case IntakeOutcome.Accepted(var reading):
                    readings.Add(reading);
                    facts.Add(reading.TankId, reading.At);
                    var corrected = known.Corrected(db, reading);
                    foreach (var also in savedWith)
                    {
                        also.Add(db, reading, corrected, known.SeasonOf(reading.TankId));
                    }

                    break;
                case IntakeOutcome.Asked asked:
                    readings.Add(asked.Reading);
                    break;
                default:
                    break;
            }
        }

        // All that is saved is new, but for a reading that another corrects: only then is there anything to look through for changes.
        db.ChangeTracker.AutoDetectChangesEnabled = outcomes.Any(o => o is IntakeOutcome.Accepted { Reading.Corrects: not null });
        await db.SaveWithAsync([readings, facts.Facts], cancel);
    }
}
