using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;

namespace Tankside.Process.Tests;

/// <summary>A batch as it is sent: always the same bytes, so that sending it again is a retry.</summary>
public sealed record SentBatch(IReadOnlyList<Guid> Ids, string Body);

/// <summary>Several loggers that send batches at once, remember what was answered, and send all of it again when asked to.</summary>
public sealed class LoggerStream(string key)
{
    /// <summary>Readings in a batch.</summary>
    public const int Size = 40;

    /// <summary>The first of the demo season's tanks; one of the later ones still waits for its eggs and has no account.</summary>
    private const int Tanks = 35;

    private const int Senders = 4;

    private readonly ConcurrentQueue<SentBatch> begun = new();
    private readonly ConcurrentQueue<SentBatch> answered = new();

    /// <summary>Every batch that was begun to be sent.</summary>
    public IReadOnlyCollection<SentBatch> Batches => begun;

    /// <summary>Those that were answered, and wholly accepted.</summary>
    public IReadOnlyCollection<SentBatch> Answered => answered;

    /// <summary>Sends from several senders, and kills the portal at a moment that nobody chose while they are sending.</summary>
    public async Task SendUntilKilledAsync(ServedPortal portal)
    {
        var killed = false;
        var enough = answered.Count + Random.Shared.Next(4, 24);
        var reached = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var senders = Enumerable.Range(0, Senders).Select(_ => Task.Run(SendAsync)).ToList();
        await Task.WhenAny([reached.Task, .. senders]);

        // Not on the stroke of an answer, but anywhere in the middle of the next ones.
        await Task.Delay(Random.Shared.Next(0, 60));
        Volatile.Write(ref killed, true);
        await portal.KillAsync();
        await Task.WhenAll(senders);

        async Task SendAsync()
        {
            for (; ; )
            {
                var batch = NewBatch();
                begun.Enqueue(batch);
                try
                {
                    var (accepted, _) = await PostAsync(portal.Client, batch);
                    Assert.Equal(Size, accepted);
                    answered.Enqueue(batch);
                }
                catch (Exception e) when (e is HttpRequestException or IOException or JsonException && Volatile.Read(ref killed))
                {
                    return;
                }

                if (answered.Count >= enough)
                {
                    reached.TrySetResult();
                }
            }
        }
    }

    /// <summary>Sends for as long as something else takes; no batch is left half sent.</summary>
    public async Task SendWhileAsync(ServedPortal portal, Func<Task> meanwhile)
    {
        var done = false;
        await SendAsync();
        var sending = Task.Run(async () =>
        {
            do
            {
                await SendAsync();
            }
            while (!Volatile.Read(ref done));
        });
        await meanwhile();
        Volatile.Write(ref done, true);
        await sending;

        async Task SendAsync()
        {
            var batch = NewBatch();
            begun.Enqueue(batch);
            await PostAsync(portal.Client, batch);
            answered.Enqueue(batch);
        }
    }

    /// <summary>How many were accepted and how many were known already, of everything ever sent.</summary>
    public async Task<(int Accepted, int Duplicates)> SendAllAgainAsync(ServedPortal portal)
    {
        var (accepted, duplicates) = (0, 0);
        foreach (var batch in begun)
        {
            var answer = await PostAsync(portal.Client, batch);
            accepted += answer.Accepted;
            duplicates += answer.Duplicates;
        }

        return (accepted, duplicates);
    }

    private async Task<(int Accepted, int Duplicates)> PostAsync(HttpClient client, SentBatch batch)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/readings")
        {
            Content = new StringContent(batch.Body, Encoding.UTF8, "application/json"),
            Headers = { Authorization = new AuthenticationHeaderValue("Bearer", key) },
        };
        using var response = await client.SendAsync(request);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        var answer = await response.Content.ReadFromJsonAsync<JsonElement>();
        return (answer.GetProperty("accepted").GetInt32(), answer.GetProperty("duplicates").GetInt32());
    }

    private static SentBatch NewBatch()
    {
        var from = DateTimeOffset.UtcNow.AddHours(-1);
        var readings = Enumerable.Range(0, Size).Select(i => new
        {
            id = Guid.NewGuid(),
            tank = string.Create(CultureInfo.InvariantCulture, $"A{1 + (i % Tanks):000}"),
            at = from.AddMinutes(i).ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture),
            moving = true,
            deadEggs = 1,
        }).ToList();
        return new SentBatch([.. readings.Select(r => r.id)], JsonSerializer.Serialize(new { readings }));
    }
}
