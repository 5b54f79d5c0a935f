using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>What becomes of a row. Every row is exactly one of these.</summary>
public enum RowFate
{
    Accepted,
    Asked,
    Duplicate,
    Refused,
    Blank,
}

/// <summary>One row and what becomes of it.</summary>
/// <param name="Why">The question or the reason; empty for a row that is plainly stored or blank.</param>
/// <param name="Understood">What was understood, for a row that could be read.</param>
public sealed record JudgedRow(SheetRow Row, RowFate Fate, string Why, IncomingReading? Understood = null, NamedTank? Tank = null);

/// <summary>
/// Takes the rows of a sheet through the intake, some at a time: foreseen for the preview, stored for good by <see cref="StoreRows"/>. At no
/// time is more than one batch of rows in hand.
/// </summary>
public sealed class JudgeRows(IDbContextFactory<HatcheryDb> databases, RecordReadings record)
{
    public const int BatchSize = 1_000;

    /// <summary>Every row with what would become of it, or, once the import is done, what became of it.</summary>
    public async IAsyncEnumerable<JudgedRow> ForeseeAsync(
        SheetInHand sheet, [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancel)
    {
        var known = default(KnownReadings);
        await foreach (var batch in BatchesAsync(sheet, cancel))
        {
            var readings = batch.Readings;
            IReadOnlyList<IntakeOutcome> outcomes = [];
            if (readings.Count > 0)
            {
                (outcomes, known) = await record.ForeseeAsync(readings, known, cancel, sheet.Say);
            }

            foreach (var row in await JudgeAsync(batch, outcomes, sheet, cancel))
            {
                yield return row;
            }
        }
    }

    /// <summary>The sheet in batches, each reading with the id that its content gives it.</summary>
    internal async IAsyncEnumerable<RowBatch> BatchesAsync(
        SheetInHand sheet, [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancel)
    {
        var reader = sheet.NewReader();
        var same = new Dictionary<(Guid, string), int>();
        foreach (var rows in sheet.Rows().Chunk(BatchSize))
        {
            cancel.ThrowIfCancellationRequested();
            var said = rows.Select(r => (Row: r, Said: reader.Read(r))).ToList();
            var contents = new List<RowContent>();
            foreach (var reading in said.Select(s => s.Said).OfType<RowSaid.Reading>())
            {
                var content = Intake.HashOf(reading.Incoming);
                var key = (reading.Incoming.TankId, content);
                same[key] = same.TryGetValue(key, out var before) ? before + 1 : 0;
                contents.Add(new RowContent(reading.Incoming.TankId, content, same[key]));
            }

            var ids = await FreshIdsAsync(contents, cancel);
            var next = 0;
            yield return new RowBatch([.. said.Select(s => s.Said is RowSaid.Reading r
                ? (s.Row, (RowSaid)(r with { Incoming = r.Incoming with { SenderId = ids[next++] } }))
                : s)]);
        }
    }

    /// <summary>
    /// Ids as the contents give them. One that belongs to a reading of an import that was taken back is spent: the row gets the id of its
    /// next generation, so that a sheet can be brought in again after all.
    /// </summary>
    private async Task<Guid[]> FreshIdsAsync(List<RowContent> contents, CancellationToken cancel)
    {
        var ids = contents.Select(c => c.Id(0)).ToArray();
        var open = Enumerable.Range(0, ids.Length).ToList();
        await using var db = await databases.CreateDbContextAsync(cancel);
        for (var generation = 1; open.Count > 0; generation++)
        {
            var (tanks, asked) = (open.Select(i => contents[i].Tank).Distinct().ToList(), open.Select(i => ids[i]).ToList());
            var spent = (await (
                from reading in db.Readings.AsNoTracking()
                join import in db.ReadingImports on reading.ImportId equals import.Id
                where tanks.Contains(reading.TankId) && asked.Contains(reading.SenderId)
                    && reading.State == ReadingState.Withdrawn && import.State == ImportState.Undone
                select reading.SenderId).ToListAsync(cancel)).ToHashSet();
            open.RemoveAll(i => !spent.Contains(ids[i]));
            open.ForEach(i => ids[i] = contents[i].Id(generation));
        }

        return ids;
    }

    /// <summary>Puts the intake's outcomes to the rows that they are of.</summary>
    internal async Task<IReadOnlyList<JudgedRow>> JudgeAsync(
        RowBatch batch, IReadOnlyList<IntakeOutcome> outcomes, SheetInHand sheet, CancellationToken cancel)
    {
        var there = await OwnAsync(outcomes, batch, sheet.Import.Id, cancel);
        var next = 0;
        return [.. batch.Rows.Select(r => r.Said switch
        {
            RowSaid.Nothing => new JudgedRow(r.Row, RowFate.Blank, ""),
            RowSaid.Unclear(var why) => new JudgedRow(r.Row, RowFate.Refused, string.Join(" ", why)),
            RowSaid.Reading said => RowOf(r.Row, said, outcomes[next++]),
            _ => throw new InvalidOperationException("a row without a meaning"),
        })];

        JudgedRow RowOf(SheetRow row, RowSaid.Reading said, IntakeOutcome outcome)
        {
            var (fate, why) = FateWords.Of(outcome, said.Incoming, sheet.Header.Titles, sheet.Columns, sheet.Say);
            if (fate == RowFate.Duplicate && there.TryGetValue(said.Incoming.SenderId, out var doubt))
            {
                (fate, why) = doubt is { } of ? (RowFate.Asked, sheet.Say[FateWords.AskedBefore(of)]) : (RowFate.Accepted, "");
            }

            if (sheet.Import.State == ImportState.Done && outcome is (IntakeOutcome.Accepted or IntakeOutcome.Asked))
            {
                // What would be stored now was not stored then: its tank was not known yet, or a day had not come.
                (fate, why) = (RowFate.Refused, sheet.Say["Not stored by this import; it could be now. Send the sheet again."]);
            }

            return new JudgedRow(row, fate, why, said.Incoming, said.Tank);
        }
    }

    /// <summary>
    /// Readings that are there because this very import stored them, with their doubt: they are no duplicates, also when storing was cut short
    /// and began again.
    /// </summary>
    private async Task<Dictionary<Guid, Doubt?>> OwnAsync(IReadOnlyList<IntakeOutcome> outcomes, RowBatch batch, Guid import, CancellationToken cancel)
    {
        var repeated = outcomes.OfType<IntakeOutcome.Duplicate>().Select(d => d.SenderId).ToList();
        if (repeated.Count == 0)
        {
            return [];
        }

        var tanks = batch.Readings.Select(r => r.TankId).Distinct().ToList();
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Readings.AsNoTracking()
            .Where(r => tanks.Contains(r.TankId) && repeated.Contains(r.SenderId) && r.ImportId == import)
            .ToDictionaryAsync(r => r.SenderId, r => r.Doubt, cancel);
    }

    private readonly record struct RowContent(Guid Tank, string Content, int Ordinal)
    {
        public Guid Id(int generation) => SheetReadingId.Of(Tank, Content, Ordinal, generation);
    }
}

/// <summary>Some rows of a sheet, as they were read.</summary>
internal sealed record RowBatch(IReadOnlyList<(SheetRow Row, RowSaid Said)> Rows)
{
    public IReadOnlyList<IncomingReading> Readings { get; } = [.. Rows.Select(r => r.Said).OfType<RowSaid.Reading>().Select(r => r.Incoming)];
}
