using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Net.WebSockets;
using System.Security.Cryptography;
using System.Text;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>
/// Strangers hold connections and say nothing, or say it a letter at a time; a member, and nobody, opens living pages by the hundred. Straight at
/// the portal, without the proxy that stands before it. Loggers, classes and people go on meanwhile, and are counted.
/// </summary>
public static class Floods
{
    private const int Loggers = 4, Classes = 4, People = 3;

    private static readonly TimeSpan Calm = TimeSpan.FromSeconds(5), UntilCut = TimeSpan.FromSeconds(90), Drip = TimeSpan.FromSeconds(1);

    public static async Task<IReadOnlyList<Tally>> IdleAsync(DatabaseKind kind, bool quick)
    {
        var many = quick ? 1_000 : 10_000;
        return [await UnderAsync(new Tally(string.Create(CultureInfo.InvariantCulture, $"{many:#,0} connections that say nothing"), kind), async (place, tally) =>
        {
            var address = place.PortalOf(0).Client.BaseAddress!;
            var sockets = new List<Socket>();
            try
            {
                for (var i = 0; i < many; i++)
                {
                    sockets.Add(await ConnectAsync(address));
                }

                tally.Saw($"{sockets.Count} were open at the same time");
                await Task.Delay(quick ? Calm : Calm * 4);
            }
            finally
            {
                sockets.ForEach(s => s.Dispose());
            }
        })];
    }

    public static async Task<IReadOnlyList<Tally>> SlowClientsAsync(DatabaseKind kind, bool quick)
    {
        var many = quick ? 50 : 500;
        return [await UnderAsync(new Tally($"{many} that send a head and {many} that send a form, one letter a second", kind), async (place, tally) =>
        {
            var address = place.PortalOf(0).Client.BaseAddress!;
            var page = $"/t/{place.Tanks.Codes[0].Code}";
            var form = Encoding.ASCII.GetBytes(
                $"POST {page} HTTP/1.1\r\nHost: {address.Authority}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100000\r\n\r\n");
            var heads = Enumerable.Range(0, many).Select(_ => UntilCutAsync(address, [], Encoding.ASCII.GetBytes($"GET {page} HTTP/1.1\r\nHost: {address.Authority}\r\nX-Slow: {new string('a', 1000)}"))).ToList();
            var bodies = Enumerable.Range(0, many).Select(_ => UntilCutAsync(address, form, Encoding.ASCII.GetBytes($"water=51&note={new string('a', 1000)}"))).ToList();
            Tell(tally, "head", await Task.WhenAll(heads));
            Tell(tally, "form", await Task.WhenAll(bodies));
        })];
    }

    public static async Task<IReadOnlyList<Tally>> LivingPagesAsync(DatabaseKind kind, bool quick)
    {
        var many = quick ? 60 : 300;
        var settings = new Dictionary<string, string> { ["Tankside:LivingPagesPerMember"] = "40" };
        return [await UnderAsync(new Tally($"{many} living pages of one member, {many} of nobody, and letters that mean nothing", kind), async (place, tally) =>
        {
            var address = place.PortalOf(0).Client.BaseAddress!;
            var jar = new CookieContainer();
            using var member = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = jar }) { BaseAddress = address };
            await member.SignInAsync(place.Tanks.Programme.EmailOf(Role.ProgrammeLead), TestWorld.Password);
            var open = new List<Circuit>();
            for (var i = 0; i < many; i++)
            {
                try
                {
                    open.Add(await Circuit.OpenAsync(member, jar, "/round"));
                }
                catch (WebSocketException e) when (e.Message.Contains("429", StringComparison.Ordinal))
                {
                    tally.Saw("one more of the member: 429");
                }
            }

            tally.Saw($"{open.Count} of the member were open at the same time");
            if (open.Count != 40 || open.Any(c => !c.IsOpen))
            {
                tally.Wrong($"{open.Count(c => c.IsOpen)} of forty are open");
            }

            foreach (var circuit in open)
            {
                await circuit.DisposeAsync();
            }

            for (var i = 0; i < many; i++)
            {
                if (await OpensAsync(address, new CookieContainer()) is not null)
                {
                    tally.Wrong("nobody opened a living page");
                }
            }

            for (var i = 0; i < many / 10; i++)
            {
                var became = await ThrowLettersAtAsync(address, jar);
                tally.Saw($"letters that mean nothing: {became ?? "never cut"}");
                if (became is null)
                {
                    tally.Wrong("a living page takes letters that mean nothing");
                }
            }
        }, settings)];
    }

    private static async Task<Tally> UnderAsync(Tally tally, Func<TrafficPlace, Tally, Task> happensAsync, IReadOnlyDictionary<string, string>? settings = null)
    {
        await using var database = await TestDatabase.CreateAsync(tally.Database);
        using var place = await TrafficPlace.SeedAsync(database.Choice, settings: settings);
        await place.ServeAsync(Loggers, Classes, People);
        await Task.Delay(Calm);
        var before = Memory(place);
        await happensAsync(place, tally);
        await Task.Delay(Calm);
        tally.Saw(string.Create(CultureInfo.InvariantCulture, $"memory {before:0} MB before, {Memory(place):0} MB after"));
        await place.EndAsync();
        await place.CountAsync(tally);
        return tally;
    }

    private static double Memory(TrafficPlace place)
    {
        using var process = System.Diagnostics.Process.GetProcessById(place.PortalOf(0).Id);
        return process.WorkingSet64 / 1048576.0;
    }

    private static async Task<Socket> ConnectAsync(Uri address)
    {
        var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        await socket.ConnectAsync(IPAddress.Loopback, address.Port);
        return socket;
    }

    /// <summary>Says the first at once and then a letter a second.</summary>
    /// <returns>When the portal cut the line; null when it never did.</returns>
    private static async Task<TimeSpan?> UntilCutAsync(Uri address, byte[] first, byte[] letters)
    {
        using var socket = await ConnectAsync(address);
        await socket.SendAsync(first);
        var watch = Stopwatch.StartNew();
        var answer = DrainAsync(socket);
        for (var i = 0; i < letters.Length && watch.Elapsed < UntilCut; i++)
        {
            try
            {
                await socket.SendAsync(letters.AsMemory(i, 1));
            }
            catch (SocketException)
            {
                return watch.Elapsed;
            }

            if (await Task.WhenAny(answer, Task.Delay(Drip)) == answer)
            {
                return watch.Elapsed;
            }
        }

        return null;
    }

    /// <summary>Ends when the portal does.</summary>
    private static async Task DrainAsync(Socket socket)
    {
        var buffer = new byte[4096];
        try
        {
            while (await socket.ReceiveAsync(buffer) > 0)
            {
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            // Cut, too.
        }
    }

    private static void Tell(Tally tally, string what, IReadOnlyList<TimeSpan?> cuts)
    {
        if (cuts.Any(c => c is null))
        {
            tally.Wrong($"{cuts.Count(c => c is null)} slow ones of a {what} were never cut");
            return;
        }

        tally.Saw(string.Create(CultureInfo.InvariantCulture, $"slow with a {what}: all {cuts.Count} cut, after {cuts.Min()!.Value.TotalSeconds:0} to {cuts.Max()!.Value.TotalSeconds:0} s"));
    }

    private static async Task<ClientWebSocket?> OpensAsync(Uri address, CookieContainer jar)
    {
        var socket = new ClientWebSocket { Options = { Cookies = jar } };
        socket.Options.SetRequestHeader("Origin", address.GetLeftPart(UriPartial.Authority));
        try
        {
            await socket.ConnectAsync(new UriBuilder(address) { Scheme = "ws", Path = "/_blazor" }.Uri, CancellationToken.None);
            return socket;
        }
        catch (WebSocketException)
        {
            socket.Dispose();
            return null;
        }
    }

    /// <returns>What became of the page; null when nothing did.</returns>
    private static async Task<string?> ThrowLettersAtAsync(Uri address, CookieContainer jar)
    {
        using var socket = await OpensAsync(address, jar);
        if (socket is null)
        {
            return "not let in";
        }

        var buffer = new byte[4096];
        try
        {
            await socket.SendAsync("{\"protocol\":\"blazorpack\",\"version\":1}\u001e"u8.ToArray(), WebSocketMessageType.Binary, true, CancellationToken.None);
            for (var i = 0; i < 1000 && socket.State == WebSocketState.Open; i++)
            {
                await socket.SendAsync(RandomNumberGenerator.GetBytes(2000), WebSocketMessageType.Binary, true, CancellationToken.None);
            }

            using var patience = new CancellationTokenSource(UntilCut);
            while ((await socket.ReceiveAsync(buffer, patience.Token)).MessageType != WebSocketMessageType.Close)
            {
            }
        }
        catch (WebSocketException)
        {
            return "cut";
        }
        catch (OperationCanceledException)
        {
            return null;
        }

        return "told goodbye";
    }
}
