using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>Broken and huge things are sent to the doors that take something, over and over, while loggers, classes and people go on.</summary>
public static class Uploads
{
    private const int Loggers = 4, Classes = 4, People = 3;
    private const long Megabyte = 1 << 20, Huge = 5L << 30;

    /// <summary>More than any door takes; whoever is let send so much was not stopped.</summary>
    private const int Endless = 64;

    private static readonly TimeSpan Calm = TimeSpan.FromSeconds(5);

    public static async Task<IReadOnlyList<Tally>> RunAsync(DatabaseKind kind, bool quick)
    {
        var tally = new Tally("broken and huge uploads", kind);
        await using var database = await TestDatabase.CreateAsync(kind);
        using var place = await TrafficPlace.SeedAsync(database.Choice);
        await place.ServeAsync(Loggers, Classes, People);
        var address = place.PortalOf(0).Client.BaseAddress!;
        using var coordinator = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = address };
        await coordinator.SignInAsync(place.Tanks.Programme.EmailOf(Role.Coordinator), TestWorld.Password);
        for (var round = 0; round < (quick ? 1 : 10); round++)
        {
            foreach (var (name, door, content) in All(place))
            {
                using var request = new HttpRequestMessage(HttpMethod.Post, door) { Content = content };
                if (door.StartsWith("/api", StringComparison.Ordinal))
                {
                    request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", place.Tanks.Key);
                }

                tally.Saw($"{name}: {await AnswerAsync(coordinator, request, tally, name)}");
            }
        }

        await Task.Delay(Calm);
        await place.EndAsync();
        await place.CountAsync(tally);
        return [tally];
    }

    private static IEnumerable<(string Name, string Door, HttpContent Content)> All(TrafficPlace place)
    {
        var (api, form, import) = ("/api/v1/readings", $"/t/{place.Tanks.Codes[0].Code}", "/readings/import");
        yield return ("batch that claims 5 GB", api, new Streamed("application/json", Huge, Endless));
        yield return ("batch without end", api, new Streamed("application/json", null, Endless));
        yield return ("form without end", form, new Streamed("application/x-www-form-urlencoded", null, Endless));
        yield return ("sheet without end", import, new Streamed("multipart/form-data; boundary=b", null, Endless, "--b\r\nContent-Disposition: form-data; name=\"Input.File\"; filename=\"a.csv\"\r\n\r\n"));
        yield return ("sheet that breaks off", import, Text("multipart/form-data; boundary=b", "--b\r\nContent-Disposition: form-data; name=\"Input.File\"; filename=\"a.csv\"\r\n\r\nTank,Date"));
        yield return ("sheet with a part's head of a megabyte", import, Text("multipart/form-data; boundary=b", $"--b\r\nContent-Disposition: form-data; name=\"{new string('n', (int)Megabyte)}\"\r\n\r\n1\r\n--b--\r\n"));
        yield return ("form of 5,000 fields", form, Text("application/x-www-form-urlencoded", string.Join('&', Enumerable.Range(0, 5000).Select(i => FormattableString.Invariant($"field{i}=1")))));
        yield return ("batch that nests deep", api, Text("application/json", new string('[', 1_000_000)));
        yield return ("batch that breaks off", api, Text("application/json", """{"readings":[{"id":"0192"""));
        yield return ("batch of bytes", api, new ByteArrayContent([.. Enumerable.Range(0, 100_000).Select(i => (byte)(i * 31))]) { Headers = { ContentType = new("application/json") } });
        yield return ("batch that says it is packed", api, new ByteArrayContent(new byte[1000]) { Headers = { ContentType = new("application/json"), ContentEncoding = { "gzip" } } });
    }

    private static ByteArrayContent Text(string type, string text) => new(Encoding.UTF8.GetBytes(text)) { Headers = { ContentType = MediaTypeHeaderValue.Parse(type) } };

    private static async Task<string> AnswerAsync(HttpClient client, HttpRequestMessage request, Tally tally, string name)
    {
        try
        {
            using var answer = await client.SendAsync(request);
            if ((int)answer.StatusCode is < 400 or >= 500)
            {
                tally.Wrong($"{name} was answered {(int)answer.StatusCode}");
            }

            return ((int)answer.StatusCode).ToString(CultureInfo.InvariantCulture);
        }
        catch (HttpRequestException)
        {
            if (request.Content is Streamed { IsSent: true })
            {
                tally.Wrong($"{name} was taken to its end");
            }

            return "cut";
        }
    }

    /// <summary>Sends a megabyte after the other.</summary>
    private sealed class Streamed : HttpContent
    {
        private static readonly byte[] Block = [.. Enumerable.Repeat((byte)'a', (int)Megabyte)];

        private readonly int megabytes;
        private readonly byte[] head;

        public Streamed(string type, long? claims, int megabytes, string head = "")
        {
            (this.megabytes, this.head) = (megabytes, Encoding.ASCII.GetBytes(head));
            Headers.ContentType = MediaTypeHeaderValue.Parse(type);
            Headers.ContentLength = claims;
        }

        /// <summary>All of it was taken.</summary>
        public bool IsSent { get; private set; }

        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context)
        {
            await stream.WriteAsync(head);
            for (var i = 0; i < megabytes; i++)
            {
                await stream.WriteAsync(Block);
            }

            IsSent = true;
        }

        protected override bool TryComputeLength(out long length)
        {
            length = 0;
            return false;
        }
    }
}
