using System.Globalization;
using System.Net.Http.Headers;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>One reading a request through the API, as a logger without a memory sends it, beside an endpoint that reads the same JSON and inserts one row.</summary>
public static class ApiReading
{
    private const int Tanks = 50, AtOnce = 64;

    public static async Task<Comparison> MeasureAsync(DatabaseKind kind, bool quick)
    {
        await using var place = await LoadPlace.CreateAsync(kind, Tanks);
        var tanks = place.Tanks.ToDictionary(t => t.Code, t => t.Id);
        await using var bare = await BareEndpoint.StartAsync("/bare", context => StoreAsync(context, place, tanks));
        var atPortal = NewClients(place.Portal.Listen(), place.Key);
        var atBare = NewClients(new Uri(bare.Urls.First()), place.Key);
        var posts = quick ? 400 : 3000;
        var minute = 0;
        return await Comparison.RunAsync(
            $"API, one reading a request, {AtOnce} at once", kind, quick ? 3 : 7, s => Comparison.PerSecond("readings", s),
            portal: () => Clients.LoopAsync(atPortal, posts, (client, number) => PostAsync(client, "/api/v1/readings", place.Tanks[number % Tanks].Code, Interlocked.Increment(ref minute))),
            bare: () => Clients.LoopAsync(atBare, posts, (client, number) => PostAsync(client, "/bare", place.Tanks[number % Tanks].Code, Interlocked.Increment(ref minute))));
    }

    private static List<HttpClient> NewClients(Uri address, string key) => [.. Enumerable.Range(0, AtOnce).Select(_ =>
    {
        var client = Clients.New(address);
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        return client;
    })];

    private static async Task PostAsync(HttpClient client, string address, string tank, int minute)
    {
        var body = JsonSerializer.SerializeToUtf8Bytes(new
        {
            readings = new[]
            {
                new { id = Guid.NewGuid(), tank, at = TestProgramme.DeliveredAt.AddMinutes(minute % 20_000).ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture), waterC = 10.4, roomC = 20.5, chillerRunning = true },
            },
        });
        using var content = new ByteArrayContent(body) { Headers = { ContentType = new MediaTypeHeaderValue("application/json") } };
        using var answer = await client.PostAsync(address, content);
        var said = await answer.EnsureSuccessStatusCode().Content.ReadAsStringAsync();
        if (!said.Contains("\"accepted\":1", StringComparison.Ordinal))
        {
            throw new InvalidOperationException($"Answered {said}: that would measure something else.");
        }
    }

    private static async Task StoreAsync(HttpContext context, LoadPlace place, Dictionary<string, Guid> tanks)
    {
        using var body = await JsonDocument.ParseAsync(context.Request.Body);
        var reading = body.RootElement.GetProperty("readings")[0];
        await new BareReading(
            reading.GetProperty("id").GetGuid(), tanks[reading.GetProperty("tank").GetString()!], reading.GetProperty("at").GetDateTimeOffset().UtcDateTime, TestWorld.Now,
            reading.GetProperty("waterC").GetDouble(), reading.GetProperty("roomC").GetDouble(), reading.GetProperty("chillerRunning").GetBoolean()).InsertAsync(place.Twin.Choice);
        context.Response.ContentType = "application/json";
        await context.Response.WriteAsync("{\"accepted\":1}");
    }
}
