using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>The logger's address over HTTP: every kind of bad input gets a clear word, and nothing is half stored.</summary>
public class LoggerApiTests
{
    private const string Address = "/api/v1/readings";

    [Theory, BothDatabases]
    public async Task A_batch_comes_out_as_accepted_duplicate_asked_and_rejected_and_they_add_up(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = host.ClientWithKey(world.One.LoggerKey);
        var twice = Item(host, "A001", ("waterC", 9.40));
        var batch = new[]
        {
            twice,
            twice with { Fields = [("waterC", 9.4)] },
            Item(host, "A001", ("waterC", 52)),
            Item(host, "A001", ("waterC", 512)),
            Item(host, "A001", ("deadEggs", -1)),
            Item(host, "A001", ("ph", 15)),
            Item(host, "A001", ("waterC", 9), ("waterF", 48)),
            Item(host, "A001", ("watrC", 9)),
            Item(host, "A001") with { At = host.Now.AddMinutes(11), Fields = [("waterC", 9)] },
            Item(host, "Z999", ("waterC", 9)),
            Item(host, "A002", ("waterC", 9)),
            Item(host, "B001", ("waterC", 9)),
            Item(host, "A001"),
        };

        var answer = await SendAsync(client, batch);

        Assert.Equal(1, answer.GetProperty("accepted").GetInt32());
        Assert.Equal(1, answer.GetProperty("duplicates").GetInt32());
        var asked = Assert.Single(answer.GetProperty("asked").EnumerateArray());
        Assert.Equal((2, "waterC", "52", 11.1), (
            asked.GetProperty("index").GetInt32(), asked.GetProperty("field").GetString(), asked.GetProperty("typed").GetString(),
            asked.GetProperty("understood").GetDouble()));
        var rejected = answer.GetProperty("rejected").EnumerateArray()
            .Select(r => (r.GetProperty("index").GetInt32(), r.GetProperty("errors").EnumerateObject().First().Name)).ToList();
        Assert.Equal(
            [(3, "waterC"), (4, "deadEggs"), (5, "ph"), (6, "waterF"), (7, "watrC"), (8, "at"), (9, "tank"), (10, "tank"), (11, "tank"), (12, "reading")],
            rejected);
        await using var db = host.OpenDb();
        Assert.Equal(2, await db.Readings.CountAsync());
        Assert.Equal(1, await db.Readings.CountAsync(r => r.State == ReadingState.Asked));
    }

    [Theory, BothDatabases]
    public async Task A_correction_names_the_reading_it_corrects_and_keeps_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = host.ClientWithKey(world.One.LoggerKey);
        var first = Item(host, "A001", ("deadEggs", 12));
        await SendAsync(client, [first]);

        var answer = await SendAsync(client, [Item(host, "A001", ("deadEggs", 2), ("corrects", first.Id))]);

        Assert.Equal(1, answer.GetProperty("accepted").GetInt32());
        await using var db = host.OpenDb();
        Assert.Equal(12, (await db.Readings.SingleAsync(r => r.SenderId == first.Id)).Seen.DeadEggs);
        Assert.Equal(2, (await Sent.LossesAsync(db)).Sum(l => l.Count));
    }

    [Theory]
    [InlineData("{\"readings\":[{]}", HttpStatusCode.BadRequest)]
    [InlineData("", HttpStatusCode.BadRequest)]
    [InlineData("[]", HttpStatusCode.BadRequest)]
    [InlineData("{\"readings\":7}", HttpStatusCode.BadRequest)]
    public async Task What_is_no_batch_is_refused_with_the_reason(string body, HttpStatusCode expected)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await host.ClientWithKey(world.One.LoggerKey).PostAsync(Address, new StringContent(body, Encoding.UTF8, "application/json"));

        Assert.Equal(expected, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        var problem = await answer.Content.ReadFromJsonAsync<JsonElement>();
        Assert.Contains("Nothing was stored", problem.GetProperty("errors").GetProperty("body")[0].GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Six_thousand_readings_are_too_many_and_five_thousand_are_not()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = host.ClientWithKey(world.One.LoggerKey);
        SentItem[] Batch(int count) => [.. Enumerable.Range(0, count).Select(i => Item(host, "A001", ("waterC", 9)) with { At = host.Now.AddSeconds(-i) })];

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await PostAsync(client, Batch(6000))).StatusCode);
        await using var db = host.OpenDb();
        Assert.Equal(0, await db.Readings.CountAsync());
        Assert.Equal(5000, (await SendAsync(client, Batch(5000))).GetProperty("accepted").GetInt32());
    }

    [Fact]
    public async Task Without_a_key_with_a_wrong_one_and_with_a_revoked_one_it_is_401()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        await host.SeedAsync(db => db.ApiKeys.Single(k => !k.AllTanks && k.ProgrammeId == world.One.Programme.Id).RevokedAt = host.Now);

        foreach (var client in new[] { host.Anonymous(), host.ClientWithKey("nonsense"), host.ClientWithKey(world.One.LoggerKey) })
        {
            Assert.Equal(HttpStatusCode.Unauthorized, (await PostAsync(client, [Item(host, "A001", ("waterC", 9))])).StatusCode);
        }
    }

    [Fact]
    public async Task An_address_that_does_not_exist_answers_in_the_form_of_the_API()
    {
        var (host, _) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var close = host;

        var answer = await host.Anonymous().GetAsync("/api/v1/no-such-thing");

        Assert.Equal((HttpStatusCode.NotFound, "application/problem+json"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
    }

    [Fact]
    public async Task Too_many_calls_in_a_minute_are_told_to_wait()
    {
        var settings = new PortalHostSettings { Keys = new Dictionary<string, string> { ["Tankside:ApiCallsAMinute"] = "3" } };
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, settings);
        await using var _ = host;
        var client = host.ClientWithKey(world.One.LoggerKey);
        for (var i = 0; i < 3; i++)
        {
            Assert.Equal(HttpStatusCode.OK, (await PostAsync(client, [Item(host, "A001", ("waterC", 9))])).StatusCode);
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, (await PostAsync(client, [Item(host, "A001", ("waterC", 9))])).StatusCode);
    }

    [Theory]
    [InlineData("2027-02-03T08:00:00", false)]
    [InlineData("yesterday", false)]
    [InlineData("2027-02-03", true)]
    [InlineData("2027-02-03T08:00:00-07:00", true)]
    [InlineData("2027-02-03T15:00:00Z", true)]
    public async Task A_time_needs_an_offset_or_is_a_day_alone(string at, bool accepted)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Now = TestWorld.Now.AddHours(6) });
        await using var _ = host;
        var body = JsonSerializer.Serialize(new { readings = new[] { new { id = Guid.NewGuid(), tank = "A001", at, waterC = 9 } } });

        var answer = await host.ClientWithKey(world.One.LoggerKey).PostAsync(Address, new StringContent(body, Encoding.UTF8, "application/json"));

        Assert.Equal(accepted ? 1 : 0, (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("accepted").GetInt32());
    }

    private sealed record SentItem(Guid Id, string Tank, DateTime At, (string Name, object Value)[] Fields);

    private static SentItem Item(PortalHost host, string tank, params (string Name, object Value)[] fields) =>
        new(Guid.NewGuid(), tank, host.Now.AddMinutes(-5), fields);

    private static Task<HttpResponseMessage> PostAsync(HttpClient client, IEnumerable<SentItem> items) =>
        client.PostAsJsonAsync(Address, new
        {
            readings = items.Select(item => new Dictionary<string, object>(item.Fields.Select(f => KeyValuePair.Create(f.Name, f.Value)))
            {
                ["id"] = item.Id,
                ["tank"] = item.Tank,
                ["at"] = new DateTimeOffset(item.At, TimeSpan.Zero).ToString("o"),
            }),
        });

    private static async Task<JsonElement> SendAsync(HttpClient client, IEnumerable<SentItem> items)
    {
        var answer = await PostAsync(client, items);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadFromJsonAsync<JsonElement>();
    }
}
