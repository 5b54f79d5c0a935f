using System.Net;
using System.Net.Sockets;

namespace Tankside.Browser.Tests;

/// <summary>Where the network breaks for the next form that is sent.</summary>
public enum Cut
{
    /// <summary>Nothing gets out any more.</summary>
    Before,

    /// <summary>Half of the request goes out, then the line is dead.</summary>
    During,

    /// <summary>The request arrives whole; its answer is lost.</summary>
    After,

    /// <summary>A filter on the way answers in the portal's place and sends the browser to its own page.</summary>
    Filtered,
}

/// <summary>The school's Wi-Fi: a line between browser and portal that breaks where the test says and stays dead until it is mended.</summary>
public sealed class CutNetwork : IAsyncDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly Uri portal;
    private readonly CancellationTokenSource stop = new();
    private readonly Task accepting;
    private readonly List<TcpClient> lines = [];
    private readonly Lock gate = new();
    private Cut? ordered;
    private bool isDead;
    private long bytes;
    private TaskCompletionSource broke = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private (EndPoint? Caller, TaskCompletionSource Done) mending = (null, new());

    public CutNetwork(Uri portal)
    {
        this.portal = portal;
        listener.Start();
        Address = new Uri($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}/");
        accepting = AcceptAsync();
    }

    public Uri Address { get; }

    /// <summary>Finished when the ordered cut has happened.</summary>
    public Task Broke => broke.Task;

    /// <summary>Bytes that went to the browser since the last call.</summary>
    public long TakeBytes() => Interlocked.Exchange(ref bytes, 0);

    public void CutAt(Cut where)
    {
        lock (gate)
        {
            broke = new(TaskCreationOptions.RunContinuationsAsynchronously);
            ordered = where;
        }

        if (where == Cut.Before)
        {
            Die();
        }
    }

    /// <summary>
    /// Makes the line whole again for those who call from now on. Who called while it was dead, and was not heard yet, is turned away first: calls
    /// are taken in the order in which they came, and the last of them is the mender's own.
    /// </summary>
    public async Task MendAsync()
    {
        using var caller = new TcpClient(new IPEndPoint(IPAddress.Loopback, 0));
        var done = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        lock (gate)
        {
            ordered = null;
            mending = (caller.Client.LocalEndPoint, done);
        }

        await caller.ConnectAsync(IPAddress.Loopback, Address.Port);
        await done.Task;
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        listener.Stop();
        Die();
        await accepting;
        stop.Dispose();
    }

    private void Die()
    {
        lock (gate)
        {
            isDead = true;
            ordered = null;
            lines.ForEach(l => l.Close());
            lines.Clear();
        }

        broke.TrySetResult();
    }

    private async Task AcceptAsync()
    {
        var running = new List<Task>();
        while (!stop.IsCancellationRequested)
        {
            try
            {
                running.Add(CarryAsync(await listener.AcceptTcpClientAsync(stop.Token)));
            }
            catch (OperationCanceledException)
            {
                break;
            }
        }

        await Task.WhenAll(running);
    }

    private async Task CarryAsync(TcpClient browser)
    {
        using var near = browser;
        using var far = new TcpClient();
        try
        {
            lock (gate)
            {
                if (near.Client.RemoteEndPoint is { } caller && caller.Equals(mending.Caller))
                {
                    isDead = false;
                    mending.Done.SetResult();
                    return;
                }

                if (isDead)
                {
                    return;
                }

                lines.Add(near);
                lines.Add(far);
            }

            await far.ConnectAsync(portal.Host, portal.Port, stop.Token);
            var answerIsLost = false;
            var outward = PumpAsync(near, far, async bytes =>
            {
                if (bytes.Span.StartsWith("POST "u8) && ordered == Cut.During)
                {
                    await far.GetStream().WriteAsync(bytes[..(bytes.Length / 2)], stop.Token);
                    Die();
                    return false;
                }

                if (bytes.Span.StartsWith("POST "u8) && ordered == Cut.Filtered)
                {
                    await near.GetStream().WriteAsync("HTTP/1.1 302 Found\r\nLocation: /blocked-by-the-school\r\nContent-Length: 0\r\n\r\n"u8.ToArray(), stop.Token);
                    lock (gate)
                    {
                        ordered = null;
                    }

                    broke.TrySetResult();
                    return false;
                }

                answerIsLost = bytes.Span.StartsWith("POST "u8) && ordered == Cut.After;
                return true;
            });
            var back = PumpAsync(far, near, answer =>
            {
                Interlocked.Add(ref bytes, answer.Length);
                if (answerIsLost)
                {
                    Die();
                }

                return Task.FromResult(!answerIsLost);
            });
            await Task.WhenAny(outward, back);
        }
        catch (Exception e) when (e is IOException or SocketException or ObjectDisposedException or OperationCanceledException)
        {
            // A dead line is what this is for.
        }
    }

    /// <summary>What was read before another line of the same network was cut does not get out after it.</summary>
    private bool IsAlive()
    {
        lock (gate)
        {
            return !isDead;
        }
    }

    private async Task PumpAsync(TcpClient from, TcpClient to, Func<ReadOnlyMemory<byte>, Task<bool>> mayPass)
    {
        var buffer = new byte[64 * 1024];
        try
        {
            while (await from.GetStream().ReadAsync(buffer, stop.Token) is > 0 and var read && await mayPass(buffer.AsMemory(0, read)) && IsAlive())
            {
                await to.GetStream().WriteAsync(buffer.AsMemory(0, read), stop.Token);
            }
        }
        catch (Exception e) when (e is IOException or SocketException or ObjectDisposedException or InvalidOperationException or OperationCanceledException)
        {
            // Closed at either end.
        }
    }
}
