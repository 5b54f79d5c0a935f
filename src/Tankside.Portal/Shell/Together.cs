using System.Collections.Concurrent;
using Tankside.Storage;

namespace Tankside.Portal.Shell;

/// <summary>
/// Many come at the same bell. What arrives while something is being done is done together as the next batch; what comes alone goes at once. Each
/// sender is answered when its own part is done (what is to be stored: committed), and not before. A sender that hangs up meanwhile does not stop
/// the others or its own.
/// </summary>
/// <typeparam name="TSent">What one sender sends.</typeparam>
/// <typeparam name="TAnswer">What it is answered.</typeparam>
public abstract class Together<TSent, TAnswer> : IDisposable
{
    /// <summary>Senders in one batch; more only makes the last one wait.</summary>
    private const int Most = 64;

    private readonly ConcurrentQueue<One> waiting = new();

    /// <summary>One batch at a time: the longer it takes, the more go with the next.</summary>
    private readonly SemaphoreSlim hand = new(1);

    public void Dispose()
    {
        hand.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <summary>Waits until what was sent is done, alone or with others.</summary>
    protected async Task<TAnswer> SendAsync(TSent sent)
    {
        var one = new One(sent);
        waiting.Enqueue(one);
        _ = TakeWaitingAsync();
        return await one.Answer.Task;
    }

    /// <summary>Does all of a batch, in one transaction where anything is stored, or throws and does nothing; the answers in the order given.</summary>
    protected abstract Task<IReadOnlyList<TAnswer>> TakeAsync(IReadOnlyList<TSent> batch);

    private async Task TakeWaitingAsync()
    {
        while (!waiting.IsEmpty)
        {
            if (!await hand.WaitAsync(TimeSpan.Zero))
            {
                return; // Whoever holds it looks again before letting go.
            }

            try
            {
                var batch = new List<One>();
                while (batch.Count < Most && waiting.TryDequeue(out var one))
                {
                    batch.Add(one);
                }

                if (batch.Count > 0)
                {
                    await AnswerAsync(batch);
                }
            }
            finally
            {
                hand.Release();
            }
        }
    }

    /// <summary>Answers everybody of the batch. One that cannot be done fails alone, unless no other could be either.</summary>
    private async Task AnswerAsync(List<One> batch)
    {
        try
        {
            var answers = await TakeAsync([.. batch.Select(one => one.Sent)]);
            foreach (var (one, answer) in batch.Zip(answers))
            {
                one.Answer.TrySetResult(answer);
            }
        }
        catch (Exception e)
        {
            // A database that is away is so for everybody: asked again for one after the other, each would wait as long as all before it.
            if (batch.Count == 1 || DatabaseAway.Is(e))
            {
                batch.ForEach(one => one.Answer.TrySetException(e));
                return;
            }

            foreach (var one in batch)
            {
                await AnswerAsync([one]);
            }
        }
    }

    /// <summary>What one sender sent, and the answer it waits for.</summary>
    private sealed record One(TSent Sent)
    {
        public TaskCompletionSource<TAnswer> Answer { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}
