using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Net.Security;
using System.Net.Sockets;
using System.Text.Json;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests;
using Tankside.Testing;

namespace Tankside.Load.Drill;

/// <summary>Loggers, classes and people, who go on whatever happens: each tries again what was not answered well, as it is told to or after a second.</summary>
/// <param name="clock">What the loggers go by.</param>
public sealed class Traffic(Uri address, string certificate, LoadTanks tanks, Answers answers, TimeProvider clock, Pace pace, CancellationToken enough)
{
    private static readonly TimeSpan Otherwise = TimeSpan.FromSeconds(1), AtLongest = TimeSpan.FromSeconds(45);

    private static readonly string[] Pages = ["/round", "/tanks", "/calendar", "/totals", "/"];

    private int given;

    public Task RunAsync(int loggers, int classes, int people) => Task.WhenAll(
    [
        .. Enumerable.Range(0, loggers).Select(i => Task.Run(() => LogAsync(i))),
        .. Enumerable.Range(0, classes).Select(i => Task.Run(() => TeachAsync(i))),
        .. Enumerable.Range(0, people).Select(_ => Task.Run(LookAsync)),
    ]);

    private async Task LogAsync(int number)
    {
        using var client = NewClient();
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", tanks.Key);
        // Not all in the same moment, each time.
        await RestAsync(pace.Logger * Random.Shared.NextDouble());
        while (!enough.IsCancellationRequested)
        {
            var id = Guid.NewGuid();
            var now = clock.GetUtcNow().UtcDateTime;
            answers.ReadAt[id] = now.AddTicks(-(now.Ticks % TimeSpan.TicksPerMillisecond));
            var body = JsonSerializer.Serialize(new
            {
                readings = new[] { new { id, tank = tanks.Tanks[number % tanks.Tanks.Count].Code, at = now.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture), waterC = 10.4 } },
            });
            answers.Begun.Enqueue(id);
            var done = await UntilDoneAsync(Sender.Logger, async () =>
            {
                using var content = new StringContent(body, null, "application/json");
                using var answer = await client.PostAsync("/api/v1/readings", content, CancellationToken.None);
                return answer.StatusCode == HttpStatusCode.OK && await IsStoredAsync(answer) ? null : Refusal.Of(answer);
            });
            if (done)
            {
                answers.Accepted.Enqueue(id);
            }

            await RestAsync(pace.Logger);
        }
    }

    private static async Task<bool> IsStoredAsync(HttpResponseMessage answer)
    {
        var counts = await answer.Content.ReadFromJsonAsync<JsonElement>();
        return counts.GetProperty("accepted").GetInt32() + counts.GetProperty("duplicates").GetInt32() == 1;
    }

    /// <summary>Opens the label, sends the form, reads the thanks.</summary>
    private async Task TeachAsync(int number)
    {
        using var client = NewClient();
        for (var i = number; !enough.IsCancellationRequested; i += 7)
        {
            var page = $"/t/{tanks.Codes[i % tanks.Codes.Count].Code}";
            await OpenAsync(Sender.Class, client, page);
            var id = Guid.NewGuid();
            answers.Begun.Enqueue(id);
            Uri? next = null;
            var done = await UntilDoneAsync(Sender.Class, async () =>
            {
                using var fields = new FormUrlEncodedContent(new Dictionary<string, string>
                {
                    ["id"] = id.ToString(),
                    ["water"] = "51",
                    ["unit"] = "F",
                    ["moving"] = "true",
                    ["bubbles"] = "true",
                    ["levelOk"] = "true",
                    ["clear"] = "true",
                });
                using var answer = await client.PostAsync(page, fields, CancellationToken.None);
                next = answer.Headers.Location;
                return answer.StatusCode == HttpStatusCode.SeeOther ? null : Refusal.Of(answer);
            });
            if (done)
            {
                answers.Accepted.Enqueue(id);
                await OpenAsync(Sender.Class, client, next!.ToString());
            }

            await RestAsync(pace.Class);
        }
    }

    private async Task LookAsync()
    {
        using var client = NewClient();
        await UntilDoneAsync(Sender.Person, async () =>
        {
            try
            {
                await client.SignInAsync(tanks.Programme.EmailOf(Role.Coordinator), TestWorld.Password);
                return null;
            }
            catch (InvalidOperationException e)
            {
                return new Refusal(e.Message, Otherwise);
            }
        });
        for (var i = 0; !enough.IsCancellationRequested; i++)
        {
            await OpenAsync(Sender.Person, client, Pages[i % Pages.Length]);
            await RestAsync(pace.Person);
        }
    }

    /// <summary>Nobody waits any longer once it is over.</summary>
    private async Task RestAsync(TimeSpan rest) => await Task.Delay(rest, enough).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);

    private Task<bool> OpenAsync(Sender by, HttpClient client, string page) => UntilDoneAsync(by, async () =>
    {
        using var answer = await client.GetAsync(page, CancellationToken.None);
        await answer.Content.ReadAsByteArrayAsync(CancellationToken.None);
        return answer.StatusCode == HttpStatusCode.OK ? null : Refusal.Of(answer);
    });

    /// <returns>False when it was given up.</returns>
    /// <param name="tryAsync">Null when it was done.</param>
    private async Task<bool> UntilDoneAsync(Sender by, Func<Task<Refusal?>> tryAsync)
    {
        var from = Stopwatch.GetTimestamp();
        var refused = new List<long>();
        for (; ; )
        {
            Refusal? refusal;
            try
            {
                refusal = await tryAsync();
            }
            catch (Exception e) when (e is HttpRequestException or IOException or SocketException or TaskCanceledException)
            {
                refusal = new Refusal(e.GetType().Name, Otherwise);
            }

            if (refusal is null)
            {
                answers.Add(new Wanted(by, from, Stopwatch.GetTimestamp(), refused));
                return true;
            }

            refused.Add(Stopwatch.GetTimestamp());
            answers.Refusals.AddOrUpdate($"{by}: {refusal.Said}", 1, (_, n) => n + 1);
            if (Stopwatch.GetElapsedTime(from) > AtLongest)
            {
                answers.Refusals.AddOrUpdate($"{by}: given up", 1, (_, n) => n + 1);
                return false;
            }

            await Task.Delay(refusal.Wait, CancellationToken.None);
        }
    }

    /// <summary>A visitor of their own, with their own cookies and address, who knows the front by its certificate, which nobody signed.</summary>
    private HttpClient NewClient()
    {
        var own = new IPEndPoint(new IPAddress([127, 0, 2, (byte)Interlocked.Increment(ref given)]), 0);
        return new HttpClient(new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            SslOptions = new SslClientAuthenticationOptions { RemoteCertificateValidationCallback = (_, shown, _, _) => shown?.GetCertHashString() == certificate },
            ConnectCallback = async (context, cancel) =>
            {
                var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
                socket.Bind(own);
                await socket.ConnectAsync(IPAddress.Loopback, context.DnsEndPoint.Port, cancel);
                return new NetworkStream(socket, ownsSocket: true);
            },
        })
        { BaseAddress = address, Timeout = TimeSpan.FromSeconds(60) };
    }

    /// <summary>What was answered instead, and how long it asks to wait.</summary>
    private sealed record Refusal(string Said, TimeSpan Wait)
    {
        public static Refusal Of(HttpResponseMessage answer) => new($"{(int)answer.StatusCode}", answer.Headers.RetryAfter?.Delta ?? Otherwise);
    }
}
