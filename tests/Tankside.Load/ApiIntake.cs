using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>Batches of readings through the API, judged and answered one by one, beside a binary COPY of the same rows.</summary>
public static class ApiIntake
{
    private const int Size = 1000, Tanks = 50;

    public static async Task<Comparison> MeasureAsync(bool quick)
    {
        await using var place = await LoadPlace.CreateAsync(DatabaseKind.PostgreSQL, Tanks);
        using var client = Clients.New(place.Portal.Listen());
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", place.Key);
        var batches = quick ? 3 : 20;
        var (sent, copied) = (0, 0);
        return await Comparison.RunAsync(
            $"API intake, batches of {Size}", DatabaseKind.PostgreSQL, quick ? 3 : 7, s => Comparison.PerSecond("readings", s),
            portal: async () =>
            {
                var bodies = Enumerable.Range(0, batches).Select(_ => Body(place, NewBatch(place, sent++))).ToList();
                var watch = Stopwatch.StartNew();
                foreach (var body in bodies)
                {
                    await PostAsync(client, body);
                }

                return new Side(watch.Elapsed.TotalSeconds / (batches * Size));
            },
            bare: async () =>
            {
                var rows = Enumerable.Range(0, batches).Select(_ => NewBatch(place, copied++)).ToList();
                var watch = Stopwatch.StartNew();
                foreach (var batch in rows)
                {
                    await BareReading.BulkAsync(place.Twin.Choice, batch);
                }

                return new Side(watch.Elapsed.TotalSeconds / (batches * Size));
            });
    }

    private static async Task PostAsync(HttpClient client, byte[] body)
    {
        using var content = new ByteArrayContent(body) { Headers = { ContentType = new MediaTypeHeaderValue("application/json") } };
        using var answer = await client.PostAsync("/api/v1/readings", content);
        var accepted = (await answer.EnsureSuccessStatusCode().Content.ReadFromJsonAsync<JsonElement>()).GetProperty("accepted").GetInt32();
        if (accepted != Size)
        {
            throw new InvalidOperationException($"Only {accepted} of {Size} were accepted: that would measure something else.");
        }
    }

    /// <summary>The next twenty minutes of every tank.</summary>
    private static List<BareReading> NewBatch(LoadPlace place, int number) =>
        [.. Enumerable.Range(0, Size).Select(i => new BareReading(
            Guid.NewGuid(), place.Tanks[i % Tanks].Id, TestProgramme.DeliveredAt.AddMinutes((number * Size / Tanks) + (i / Tanks)), TestWorld.Now,
            10 + (((i * 7) % 10) / 10.0), 20.5, i % 3 == 0))];

    private static byte[] Body(LoadPlace place, List<BareReading> batch) => JsonSerializer.SerializeToUtf8Bytes(new
    {
        readings = batch.Select((r, i) => new
        {
            id = r.Sender,
            tank = place.Tanks[i % Tanks].Code,
            at = r.At.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture),
            waterC = r.WaterC,
            roomC = r.RoomC,
            chillerRunning = r.ChillerRunning,
        }),
    });
}
