using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Readings;

/// <summary>Batches of loggers: what small ones arrive together is stored together, a large one goes by itself.</summary>
public sealed class LoggersTogether(IDbContextFactory<HatcheryDb> databases, IServiceScopeFactory scopes)
    : Together<LoggersTogether.Batch, BatchAnswer>
{
    /// <summary>A batch of more readings is a transaction's worth of its own, and does not make others wait for it.</summary>
    private const int Small = 20;

    /// <summary>Judges and stores a batch; answered when it is committed.</summary>
    /// <param name="cancel">Stops a large batch that nobody waits for any more; small ones go with others, whatever their sender does.</param>
    public async Task<BatchAnswer> RecordAsync(ApiKey key, IReadOnlyList<ReadingJson> parsed, CancellationToken cancel)
    {
        var batch = new Batch(key, parsed);
        return parsed.Count <= Small ? await SendAsync(batch) : (await StoreAsync([batch], cancel))[0];
    }

    protected override Task<IReadOnlyList<BatchAnswer>> TakeAsync(IReadOnlyList<Batch> batch) => StoreAsync(batch, CancellationToken.None);

    private async Task<IReadOnlyList<BatchAnswer>> StoreAsync(IReadOnlyList<Batch> batches, CancellationToken cancel)
    {
        var tanks = await TanksOfAsync(batches, cancel);
        var sorted = batches.Select(b => Sorted.Of(b, tanks)).ToList();
        await using var scope = scopes.CreateAsyncScope();
        var record = scope.ServiceProvider.GetRequiredService<RecordReadings>();
        var outcomes = await record.RecordAsync([.. sorted.SelectMany(s => s.Readings)], cancel);
        var next = 0;
        return [.. sorted.Select(s =>
        {
            var own = outcomes.Skip(next).Take(s.Readings.Count).ToList();
            next += own.Count;
            return s.Answer(own);
        })];
    }

    /// <summary>The tanks that are named and that the key which names them serves.</summary>
    private async Task<Dictionary<(Guid Programme, string Code), Guid>> TanksOfAsync(IReadOnlyList<Batch> batches, CancellationToken cancel)
    {
        var programmes = batches.Select(b => b.Key.ProgrammeId).Distinct().ToList();
        var codes = batches.SelectMany(b => b.Parsed).Select(p => p.Tank).OfType<string>().Distinct().ToList();
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Tanks.Where(t => programmes.Contains(t.ProgrammeId) && codes.Contains(t.Code))
            .Select(t => new { t.ProgrammeId, t.Code, t.Id }).ToDictionaryAsync(t => (t.ProgrammeId, t.Code), t => t.Id, cancel);
    }

    /// <summary>What one logger sends at once, read but not judged.</summary>
    public sealed record Batch(ApiKey Key, IReadOnlyList<ReadingJson> Parsed);

    /// <summary>A batch's readings that can be judged, and those that cannot.</summary>
    private sealed class Sorted
    {
        private readonly List<RejectedItem> rejected = [];
        private readonly List<int> indexes = [];

        public List<IncomingReading> Readings { get; } = [];

        public static Sorted Of(Batch batch, Dictionary<(Guid Programme, string Code), Guid> tanks)
        {
            var sorted = new Sorted();
            foreach (var (index, item) in batch.Parsed.Index())
            {
                var tank = item.Tank is { } code && tanks.TryGetValue((batch.Key.ProgrammeId, code), out var id) && batch.Key.Serves(id) ? id : (Guid?)null;
                if (item.Tank is not null && tank is null)
                {
                    item.Errors["tank"] = ["There is no tank with this code for this key."];
                }

                if (item.Errors.Count > 0)
                {
                    sorted.rejected.Add(new RejectedItem(index, item.IdText, item.Errors));
                    continue;
                }

                sorted.indexes.Add(index);
                sorted.Readings.Add(new IncomingReading
                {
                    SenderId = item.Id!.Value,
                    TankId = tank!.Value,
                    At = item.At!.Value,
                    Seen = item.Seen,
                    Water = item.Water,
                    Corrects = item.Corrects,
                    Source = ReadingSource.Logger,
                    EnteredBy = batch.Key.Id,
                });
            }

            return sorted;
        }

        public BatchAnswer Answer(IReadOnlyList<IntakeOutcome> outcomes)
        {
            var asked = new List<AskedItem>();
            var (accepted, duplicates) = (0, 0);
            for (var i = 0; i < outcomes.Count; i++)
            {
                switch (outcomes[i])
                {
                    case IntakeOutcome.Accepted:
                        accepted++;
                        break;
                    case IntakeOutcome.Duplicate:
                        duplicates++;
                        break;
                    case IntakeOutcome.Asked a:
                        asked.Add(new AskedItem(indexes[i], Readings[i].SenderId, a.Field, a.Typed, Math.Round(a.Understood, 1),
                            DoubtWords.Question(a.Doubt, a.Typed, Readings[i].Water!.Unit, a.Understood, a.UnderstoodUnit)));
                        break;
                    case IntakeOutcome.Rejected(var errors):
                        rejected.Add(new RejectedItem(indexes[i], Readings[i].SenderId.ToString(), errors));
                        break;
                }
            }

            return new BatchAnswer(accepted, duplicates, asked, [.. rejected.OrderBy(r => r.Index)]);
        }
    }
}
