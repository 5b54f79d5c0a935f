using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace Tankside.Load;

/// <summary>HTTP clients that each call from an address of their own, as loggers and schools do, so that limits by address see many.</summary>
public static class Clients
{
    private static int given;

    public static HttpClient New(Uri address)
    {
        var number = Interlocked.Increment(ref given);
        var own = new IPEndPoint(new IPAddress([127, 0, (byte)(1 + (number / 250)), (byte)(1 + (number % 250))]), 0);
        return new HttpClient(new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            UseCookies = false,
            ConnectCallback = async (context, cancel) =>
            {
                var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
                socket.Bind(own);
                await socket.ConnectAsync(IPAddress.Loopback, context.DnsEndPoint.Port, cancel);
                return new NetworkStream(socket, ownsSocket: true);
            },
        })
        { BaseAddress = address };
    }

    /// <summary>A closed loop: each client sends its next request when the one before is answered.</summary>
    /// <param name="clients">How many at once.</param>
    /// <param name="requests">How many in all.</param>
    /// <param name="sendAsync">Sends one request of a client; given its client and its number.</param>
    public static async Task<Side> LoopAsync(IReadOnlyList<HttpClient> clients, int requests, Func<HttpClient, int, Task> sendAsync)
    {
        var next = -1;
        var latencies = new ConcurrentBag<double>();
        var watch = Stopwatch.StartNew();
        await Task.WhenAll(clients.Select(client => Task.Run(async () =>
        {
            for (var number = Interlocked.Increment(ref next); number < requests; number = Interlocked.Increment(ref next))
            {
                var from = Stopwatch.GetTimestamp();
                await sendAsync(client, number);
                latencies.Add(Stopwatch.GetElapsedTime(from).TotalMilliseconds);
            }
        })));
        return new Side(watch.Elapsed.TotalSeconds / requests, [.. latencies]);
    }
}
