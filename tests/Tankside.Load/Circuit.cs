using System.Net;
using System.Net.WebSockets;
using System.Text;
using System.Text.RegularExpressions;

namespace Tankside.Load;

/// <summary>
/// An open interactive page as the portal sees it: the page's components started over a web socket, every picture of it acknowledged, nothing
/// drawn. A browser's own memory is not in the way, so that hundreds can be open on one machine.
/// </summary>
public sealed partial class Circuit : IAsyncDisposable
{
    private static readonly byte[] Ping = [2, 0x91, 6];

    private readonly ClientWebSocket socket = new();
    private readonly SemaphoreSlim turn = new(1);
    private readonly CancellationTokenSource end = new();
    private readonly TaskCompletionSource drawn = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private Task reading = Task.CompletedTask;

    private Circuit()
    {
    }

    /// <summary>Opens a page for somebody who is signed in, and waits until it was drawn once.</summary>
    public static async Task<Circuit> OpenAsync(HttpClient client, CookieContainer cookies, string path)
    {
        var page = new Uri(client.BaseAddress!, path);
        var html = await client.GetStringAsync(page);
        var markers = Marker().Matches(html).Select(m => m.Groups[1].Value).Where(m => m.Contains("\"descriptor\"", StringComparison.Ordinal)).ToList();
        if (markers.Count == 0)
        {
            throw new InvalidOperationException($"{path} has no interactive part.");
        }

        var circuit = new Circuit();
        circuit.socket.Options.Cookies = cookies;
        circuit.socket.Options.SetRequestHeader("Origin", page.GetLeftPart(UriPartial.Authority));
        await circuit.socket.ConnectAsync(new UriBuilder(page) { Scheme = "ws", Path = "/_blazor" }.Uri, CancellationToken.None);
        await circuit.SendAsync(Encoding.UTF8.GetBytes("{\"protocol\":\"blazorpack\",\"version\":1}\u001e"));
        circuit.reading = circuit.ReadAsync();
        var state = State().Match(html).Groups[1].Value;
        await circuit.CallAsync("0", "StartCircuit", client.BaseAddress!.ToString(), page.ToString(), "[]", state);
        var parts = markers.Select((marker, i) => FormattableString.Invariant($$"""{"type":"add","ssrComponentId":{{i + 1}},"marker":{{marker}}}"""));
        await circuit.CallAsync(null, "UpdateRootComponents", $$"""{"batchId":1,"operations":[{{string.Join(',', parts)}}]}""", state);
        await circuit.drawn.Task.WaitAsync(TimeSpan.FromSeconds(60));
        return circuit;
    }

    /// <summary>Still open.</summary>
    public bool IsOpen => socket.State == WebSocketState.Open && !reading.IsCompleted;

    public async ValueTask DisposeAsync()
    {
        await end.CancelAsync();
        await reading.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        socket.Dispose();
        turn.Dispose();
        end.Dispose();
    }

    private async Task ReadAsync()
    {
        var (held, buffer, greeted, heard) = (new List<byte>(), new byte[1 << 16], false, Environment.TickCount64);
        while (true)
        {
            var got = await socket.ReceiveAsync(buffer, end.Token);
            if (got.MessageType == WebSocketMessageType.Close)
            {
                drawn.TrySetException(new InvalidOperationException($"The portal closed the page: {got.CloseStatusDescription}"));
                return;
            }

            held.AddRange(buffer.AsSpan(0, got.Count));
            if (!greeted && held.IndexOf(0x1e) is >= 0 and var mark)
            {
                greeted = true;
                held.RemoveRange(0, mark + 1);
            }

            while (greeted && Next(held) is { } message)
            {
                await TakeAsync(message);
            }

            if (Environment.TickCount64 - heard > 10_000)
            {
                heard = Environment.TickCount64;
                await SendAsync(Ping);
            }
        }
    }

    private async Task TakeAsync(byte[] message)
    {
        if (message is [0x91, 6])
        {
            await SendAsync(Ping);
        }
        else if (message.AsSpan().IndexOf("JS.RenderBatch"u8) is >= 0 and var at)
        {
            // Its name, then an array of two, the first of which is the number that is acknowledged.
            var number = message.AsSpan(at + "JS.RenderBatch".Length + 1);
            await CallAsync(null, "OnRenderCompleted", number[..(number[0] switch { < 0x80 => 1, 0xcc => 2, 0xcd => 3, 0xce => 5, _ => 9 })].ToArray(), null);
            drawn.TrySetResult();
        }
        else if (message.AsSpan().IndexOf("JS.Error"u8) >= 0)
        {
            drawn.TrySetException(new InvalidOperationException("The page broke: " + Encoding.UTF8.GetString(message)));
        }
    }

    /// <summary>The first whole message of what came, taken away from it: its length in sevens of bits, then itself.</summary>
    private static byte[]? Next(List<byte> held)
    {
        var (length, i) = (0, 0);
        for (var shift = 0; ; shift += 7)
        {
            if (i >= held.Count)
            {
                return null;
            }

            length |= (held[i] & 0x7f) << shift;
            if ((held[i++] & 0x80) == 0)
            {
                break;
            }
        }

        if (held.Count < i + length)
        {
            return null;
        }

        var message = held.GetRange(i, length).ToArray();
        held.RemoveRange(0, i + length);
        return message;
    }

    private async Task CallAsync(string? id, string method, params object?[] arguments)
    {
        using var body = new MemoryStream();
        body.Write([0x96, 1, 0x80]);
        Write(body, id);
        Write(body, method);
        body.WriteByte((byte)(0x90 | arguments.Length));
        foreach (var argument in arguments)
        {
            Write(body, argument);
        }

        body.WriteByte(0x90);
        List<byte> framed = [];
        for (var length = (int)body.Length; ; length >>= 7)
        {
            framed.Add((byte)((length & 0x7f) | (length > 0x7f ? 0x80 : 0)));
            if (length <= 0x7f)
            {
                break;
            }
        }

        await SendAsync([.. framed, .. body.ToArray()]);
    }

    private static void Write(MemoryStream body, object? value)
    {
        switch (value)
        {
            case null:
                body.WriteByte(0xc0);
                break;
            case byte[] packed:
                body.Write(packed);
                break;
            case string text:
                var bytes = Encoding.UTF8.GetBytes(text);
                body.Write([0xdb, (byte)(bytes.Length >> 24), (byte)(bytes.Length >> 16), (byte)(bytes.Length >> 8), (byte)bytes.Length]);
                body.Write(bytes);
                break;
        }
    }

    private async Task SendAsync(byte[] bytes)
    {
        await turn.WaitAsync(end.Token);
        try
        {
            await socket.SendAsync(bytes, WebSocketMessageType.Binary, true, end.Token);
        }
        finally
        {
            turn.Release();
        }
    }

    [GeneratedRegex(@"<!--Blazor:(\{.*?\})-->")]
    private static partial Regex Marker();

    [GeneratedRegex("<!--Blazor-Server-Component-State:(.*?)-->")]
    private static partial Regex State();
}
