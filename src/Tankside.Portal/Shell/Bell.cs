using System.Threading.Channels;

namespace Tankside.Portal.Shell;

/// <summary>
/// Wakes whoever looks for work by the clock. It only hides the delay: rung while the other works it is heard afterwards, and what is missed
/// is found at the next look.
/// </summary>
public sealed class Bell
{
    private readonly Channel<bool> rung = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    public void Ring() => rung.Writer.TryWrite(true);

    /// <summary>Waits until it rings or the time is up; true when it rang.</summary>
    public async Task<bool> WaitAsync(TimeSpan atMost, TimeProvider time, CancellationToken cancel)
    {
        using var limit = new CancellationTokenSource(atMost, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(limit.Token, cancel);
        try
        {
            return await rung.Reader.ReadAsync(either.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return false;
        }
    }
}
