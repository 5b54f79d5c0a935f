using System.Net;
using System.Net.Sockets;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>A way to a server on this machine that can be made slow, be stopped up, or be cut.</summary>
public sealed class PassThrough : IDisposable
{
    private readonly TcpListener listener;
    private readonly CancellationTokenSource end = new();
    private readonly int to;
    private TaskCompletionSource open = Opened();

    public PassThrough(int to)
    {
        this.to = to;
        Port = Loopback.FreePort();
        listener = new TcpListener(IPAddress.Loopback, Port);
        listener.Start();
        _ = AcceptAsync();
    }

    public int Port { get; }

    /// <summary>How long everything takes each way.</summary>
    public TimeSpan Delay { get; set; }

    /// <summary>Nothing goes through, and nobody is told.</summary>
    public void Stall() => open = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>What was held goes on.</summary>
    public void GoOn() => open.TrySetResult();

    public void Dispose()
    {
        end.Cancel();
        GoOn();
        listener.Dispose();
        end.Dispose();
    }

    private static TaskCompletionSource Opened()
    {
        var source = new TaskCompletionSource();
        source.SetResult();
        return source;
    }

    private async Task AcceptAsync()
    {
        try
        {
            for (; ; )
            {
                _ = CarryAsync(await listener.AcceptTcpClientAsync(end.Token));
            }
        }
        catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException or SocketException)
        {
            // Nobody needs the way any more.
        }
    }

    private async Task CarryAsync(TcpClient near)
    {
        using (near)
        using (var far = new TcpClient { NoDelay = true })
        {
            try
            {
                near.NoDelay = true;
                await far.ConnectAsync(IPAddress.Loopback, to, end.Token);
                await Task.WhenAny(CopyAsync(near.GetStream(), far.GetStream()), CopyAsync(far.GetStream(), near.GetStream()));
            }
            catch (Exception e) when (e is OperationCanceledException or IOException or SocketException)
            {
                // One of the two hung up; so does the other.
            }
        }
    }

    private async Task CopyAsync(NetworkStream from, NetworkStream into)
    {
        var buffer = new byte[64 * 1024];
        while (await from.ReadAsync(buffer, end.Token) is > 0 and var read)
        {
            await open.Task;
            if (Delay > TimeSpan.Zero)
            {
                await Task.Delay(Delay, end.Token);
            }

            await into.WriteAsync(buffer.AsMemory(0, read), end.Token);
        }
    }
}
