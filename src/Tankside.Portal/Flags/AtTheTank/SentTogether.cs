using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>
/// Many classes send at the same bell. What arrives while something is being stored is looked up and stored together as the next batch, in
/// one transaction; a form that comes alone goes at once. Each sender is answered when its own reading is committed, and not before. A
/// sender that hangs up meanwhile does not stop the others or its own.
/// </summary>
public sealed class SentTogether(IDbContextFactory<HatcheryDb> databases, IServiceScopeFactory scopes) : IDisposable
{
    /// <summary>Forms in one transaction; more only makes the last one wait.</summary>
    private const int MostTogether = 64;

    private readonly ConcurrentQueue<Form> waiting = new();

    /// <summary>One batch at a time: the longer it takes, the more go with the next.</summary>
    private readonly SemaphoreSlim hand = new(1);

    public void Dispose() => hand.Dispose();

    /// <summary>Stores the reading for the tank that the label opens; null when it opens none.</summary>
    /// <param name="code">The room code as <see cref="Hatchery.Places.RoomCodes.Normalise"/> gives it.</param>
    /// <param name="reading">Its tank is filled in here.</param>
    public async Task<IntakeOutcome?> SendAsync(string code, IncomingReading reading)
    {
        var form = new Form(code, reading);
        waiting.Enqueue(form);
        _ = StoreWaitingAsync();
        return await form.Answer.Task;
    }

    private async Task StoreWaitingAsync()
    {
        while (!waiting.IsEmpty)
        {
            if (!await hand.WaitAsync(TimeSpan.Zero))
            {
                return; // Whoever holds it looks again before letting go.
            }

            try
            {
                if (TakeBatch() is { Count: > 0 } batch)
                {
                    await StoreAsync(batch);
                }
            }
            finally
            {
                hand.Release();
            }
        }
    }

    private List<Form> TakeBatch()
    {
        var batch = new List<Form>();
        while (batch.Count < MostTogether && waiting.TryDequeue(out var form))
        {
            batch.Add(form);
        }

        return batch;
    }

    /// <summary>Answers every form of the batch. One that cannot be stored fails alone.</summary>
    private async Task StoreAsync(List<Form> batch)
    {
        try
        {
            await TryStoreAsync(batch);
        }
        catch (Exception e)
        {
            if (batch is [var alone])
            {
                alone.Answer.TrySetException(e);
                return;
            }

            foreach (var form in batch.Where(f => !f.Answer.Task.IsCompleted))
            {
                await StoreAsync([form]);
            }
        }
    }

    private async Task TryStoreAsync(List<Form> batch)
    {
        var tanks = await TanksOfAsync(batch);
        var known = new List<Form>();
        foreach (var form in batch)
        {
            if (tanks.ContainsKey(form.Code))
            {
                known.Add(form);
            }
            else
            {
                form.Answer.TrySetResult(null);
            }
        }

        await using var scope = scopes.CreateAsyncScope();
        var record = scope.ServiceProvider.GetRequiredService<RecordReadings>();
        var outcomes = await record.RecordAsync([.. known.Select(f => f.Reading with { TankId = tanks[f.Code] })], CancellationToken.None);
        foreach (var (form, outcome) in known.Zip(outcomes))
        {
            form.Answer.TrySetResult(outcome);
        }
    }

    private async Task<Dictionary<string, Guid>> TanksOfAsync(List<Form> batch)
    {
        var codes = batch.Select(f => f.Code).Distinct().ToList();
        await using var db = await databases.CreateDbContextAsync();
        return await db.RoomCodes.Where(c => codes.Contains(c.Code) && c.RevokedAt == null).ToDictionaryAsync(c => c.Code, c => c.TankId);
    }

    /// <summary>One form on its way, and the answer its sender waits for.</summary>
    private sealed record Form(string Code, IncomingReading Reading)
    {
        public TaskCompletionSource<IntakeOutcome?> Answer { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}
