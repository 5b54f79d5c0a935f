using Tankside.Storage;

namespace Tankside.Portal.Tests.Shell;

/// <summary>The answers that are put together once for everybody, and that no others are.</summary>
public class KeptAnswerTests
{
    [Fact]
    public async Task The_description_of_the_interface_is_put_together_once_an_hour_for_each_name_of_ours()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);
        var client = host.Anonymous();

        using var first = await client.GetAsync("/openapi/v1.json");
        using var again = await client.GetAsync("/openapi/v1.json");
        using var elsewhere = await AskAsync("other.example.test");

        Assert.Null(first.Headers.Age);
        Assert.NotNull(again.Headers.Age);
        Assert.Equal(await first.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        Assert.Null(elsewhere.Headers.Age);

        Task<HttpResponseMessage> AskAsync(string name) => client.SendAsync(new HttpRequestMessage(HttpMethod.Get, "/openapi/v1.json") { Headers = { Host = name } });
    }

    [Fact]
    public async Task What_says_how_things_stand_is_put_together_anew_each_time()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = host.Anonymous();
        foreach (var address in new[] { "/sign-in", "/health/live", $"/t/{world.One.RoomCodes[0].Code}", "/metrics" })
        {
            (await client.GetAsync(address)).Dispose();
            using var again = await client.GetAsync(address);
            Assert.Null(again.Headers.Age);
        }
    }
}
