using System.Net.Http.Headers;
using System.Net.Http.Json;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>Measurements are fetched from an address of their own, and tell nothing of anybody.</summary>
public class MeasurementTests
{
    [Fact]
    public async Task What_is_measured_is_told_on_its_own_address_and_only_there()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseKind.Sqlite);
        var world = new TestWorld();
        await using (var db = database.CreateDbContext())
        {
            world.One.AddTo(db);
            await db.SaveChangesAsync();
        }

        using var installation = Installation.On(database);
        var key = (await installation.RunAsync("key", "new", "--role", "logger", "--tanks", "all")).Good().Output.Trim();
        var listen = $"127.0.0.1:{Loopback.FreePort()}";
        installation.Settings["Tankside__Metrics__Listen"] = listen;
        using var portal = await installation.ServeAsync();
        var readings = new[] { new { id = Guid.NewGuid(), tank = "A001", at = DateTimeOffset.UtcNow.AddMinutes(-5), waterC = 9.5 } };
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/readings") { Content = JsonContent.Create(new { readings }) };
        request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", key);
        (await portal.Client.SendAsync(request)).EnsureSuccessStatusCode().Dispose();

        using var operatorsClient = new HttpClient();
        var told = await operatorsClient.GetStringAsync($"http://{listen}/metrics");

        Assert.Matches("""(?m)^tankside_readings_total\{[^}]*became="accepted"[^}]*\} 1\b""", told);
        Assert.Matches("(?m)^http_server_request_duration_seconds_count", told);
        Assert.DoesNotContain("A001", told, StringComparison.Ordinal);
        Assert.DoesNotContain("http_route", told, StringComparison.Ordinal);
        Assert.True(told.Length < 40_000, $"{told.Length} characters");
        Assert.DoesNotContain("tankside_readings", await (await portal.Client.GetAsync("/metrics")).Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
