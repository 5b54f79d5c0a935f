using System.Threading.Channels;

namespace Tankside.Portal.Readings;

/// <summary>
/// The word that something new was stored. It only hides the delay: whoever misses it finds the unjudged facts in the database at the next
/// sweep.
/// </summary>
public sealed class NewFacts
{
    private readonly Channel<bool> word = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    public void Tell() => word.Writer.TryWrite(true);

    /// <summary>Waits for the word, or until it is time for a sweep; true when the word came.</summary>
    public async Task<bool> WaitAsync(TimeSpan atMost, TimeProvider time, CancellationToken cancel)
    {
        using var limit = new CancellationTokenSource(atMost, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(limit.Token, cancel);
        try
        {
            return await word.Reader.ReadAsync(either.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return false;
        }
    }
}
