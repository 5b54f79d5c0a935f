using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>
/// Many classes send at the same bell. What arrives while something is being stored is looked up and stored together as the next batch, in
/// one transaction; a form that comes alone goes at once. Each sender is answered when its own reading is committed, and not before. A
/// sender that hangs up meanwhile does not stop the others or its own.
/// </summary>
public sealed class SentTogether(IDbContextFactory<HatcheryDb> databases, IServiceScopeFactory scopes, TanksideOptions options) : IDisposable
{
    /// <summary>Forms in one transaction; more only makes the last one wait.</summary>
    private const int MostTogether = 64;

    private readonly ConcurrentQueue<Form> waiting = new();

    /// <summary>While one batch waits for the server the next is made ready; SQLite lets one write at a time, so there it would only wait.</summary>
    private readonly SemaphoreSlim hands = new(options.Database.Kind == DatabaseKind.Sqlite ? 1 : 2);

    public void Dispose() => hands.Dispose();

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
            if (!await hands.WaitAsync(TimeSpan.Zero))
            {
                return; // Whoever holds the hands looks again before letting go.
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
                hands.Release();
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
