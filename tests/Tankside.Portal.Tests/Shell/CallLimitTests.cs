using System.Net;
using System.Net.WebSockets;
using System.Text.Json;
using Microsoft.AspNetCore.Mvc.Testing.Handlers;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.Hosting;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Shell;

/// <summary>A key is served so many times a minute, wherever it calls from, and told when to come back.</summary>
public class CallLimitTests
{
    private const string Key = "Tankside:Api:RequestsPerMinute", Address = "/api/v1/tanks";

    [Fact]
    public async Task A_key_that_calls_too_often_is_told_when_to_come_back_and_other_keys_are_served()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = new Dictionary<string, string> { [Key] = "2" } });
        await using var _ = host;
        using var busy = host.ClientWithKey(world.One.CoordinatorKey);
        for (var i = 0; i < 2; i++)
        {
            Assert.Equal(HttpStatusCode.OK, (await busy.GetAsync(Address)).StatusCode);
        }

        using var refused = await busy.GetAsync(Address);
        var problem = JsonDocument.Parse(await refused.Content.ReadAsStringAsync()).RootElement;

        Assert.Equal((HttpStatusCode.TooManyRequests, "application/problem+json"), (refused.StatusCode, refused.Content.Headers.ContentType!.MediaType));
        Assert.InRange(refused.Headers.RetryAfter!.Delta!.Value.TotalSeconds, 1, 60);
        Assert.Equal(429, problem.GetProperty("status").GetInt32());
        Assert.Contains("nothing was stored", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await host.ClientWithKey(world.Two.CoordinatorKey).GetAsync(Address)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await host.Anonymous().GetAsync("/api/v1/bench/oxygen?waterC=9.5")).StatusCode);
    }

    [Fact]
    public async Task The_same_key_written_another_way_is_the_same_key()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = new Dictionary<string, string> { [Key] = "1" } });
        await using var _ = host;
        Assert.Equal(HttpStatusCode.OK, (await host.ClientWithKey(world.One.CoordinatorKey).GetAsync(Address)).StatusCode);

        foreach (var written in new[] { $"bearer {world.One.CoordinatorKey}", $"BEARER   {world.One.CoordinatorKey} " })
        {
            using var client = host.Anonymous();
            client.DefaultRequestHeaders.TryAddWithoutValidation("Authorization", written);
            Assert.Equal(HttpStatusCode.TooManyRequests, (await client.GetAsync(Address)).StatusCode);
        }
    }

    [Fact]
    public async Task A_door_that_guards_a_secret_takes_twenty_tries_a_minute_from_one_address()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);
        using var nobody = host.Anonymous();
        for (var i = 0; i < 20; i++)
        {
            Assert.NotEqual(HttpStatusCode.TooManyRequests, (await nobody.PostAsync("/sign-in", null)).StatusCode);
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, (await nobody.PostAsync("/sign-in", null)).StatusCode);
        Assert.Equal(HttpStatusCode.TooManyRequests, (await nobody.PostAsync("/Invitation/guessed", null)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await nobody.GetAsync("/sign-in")).StatusCode);
    }

    [Fact]
    public async Task A_member_who_asks_too_much_waits_and_the_others_do_not()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = new Dictionary<string, string> { ["Tankside:MemberRequestsPerMinute"] = "3" } });
        await using var _ = host;
        using var busy = await host.ClientAs(Role.Coordinator, world.One);
        var answers = new List<HttpStatusCode>();
        for (var i = 0; i < 5; i++)
        {
            answers.Add((await busy.GetAsync("/kit/loans/none.pdf")).StatusCode);
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, answers[^1]);
        Assert.Equal(HttpStatusCode.OK, (await busy.GetAsync("/icon.svg")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await (await host.ClientAs(Role.ProgrammeLead, world.One)).GetAsync("/me")).StatusCode);
    }

    [Fact]
    public async Task At_one_room_code_so_many_forms_are_taken_a_minute_and_at_others_as_many()
    {
        var (host, _) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = new Dictionary<string, string> { ["Tankside:FormsPerMinute"] = "2" } });
        await using var _2 = host;
        using var nobody = host.Anonymous();
        foreach (var (address, refused) in new[] { ("/t/one-code", false), ("/t/ONE-code/answer", false), ("/t/one-code", true), ("/t/other-code", false) })
        {
            Assert.Equal(refused, (await nobody.PostAsync(address, null)).StatusCode == HttpStatusCode.TooManyRequests);
        }

        Assert.NotEqual(HttpStatusCode.TooManyRequests, (await nobody.GetAsync("/t/one-code")).StatusCode);
    }

    [Fact]
    public async Task A_member_holds_so_many_living_pages_open_and_one_more_when_another_is_closed()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = new Dictionary<string, string> { ["Tankside:LivingPagesPerMember"] = "2" } });
        await using var _ = host;
        var jar = new CookieContainer();
        using var coordinator = host.CreateDefaultClient(new CookieContainerHandler(jar));
        await coordinator.SignInAsync(world.One.EmailOf(Role.Coordinator), TestWorld.Password);
        var first = await OpenAsync();
        using var second = await OpenAsync();

        Assert.Contains("429", (await Assert.ThrowsAsync<InvalidOperationException>(OpenAsync)).Message, StringComparison.Ordinal);

        first.Dispose();
        for (var deadline = DateTime.UtcNow.AddSeconds(20); ; await Task.Delay(20))
        {
            try
            {
                (await OpenAsync()).Dispose();
                return;
            }
            catch (InvalidOperationException) when (DateTime.UtcNow < deadline)
            {
                // The portal has not seen yet that the first is gone.
            }
        }

        Task<WebSocket> OpenAsync()
        {
            var opens = host.Server.CreateWebSocketClient();
            opens.ConfigureRequest = request =>
            {
                request.Headers.Cookie = jar.GetCookieHeader(coordinator.BaseAddress!);
                request.Headers.Origin = coordinator.BaseAddress!.GetLeftPart(UriPartial.Authority); // As a browser does.
            };
            return opens.ConnectAsync(new Uri(coordinator.BaseAddress!, "/_blazor"), CancellationToken.None);
        }
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-5")]
    [InlineData("many")]
    [InlineData("1.5")]
    public void A_limit_that_is_none_stops_the_start_and_names_its_key(string text)
    {
        var refused = Assert.Throws<ConfigurationException>(() => Options(text));

        Assert.Equal((Key, $"{Key}: '{text}' is not a number of calls, 1 or more."), (refused.Key, refused.Message));
    }

    [Theory]
    [InlineData(null, 600)]
    [InlineData("", 600)]
    [InlineData("30", 30)]
    public void A_limit_is_what_was_set_or_the_usual_one(string? text, int calls) => Assert.Equal(calls, Options(text).ApiRequestsPerMinute);

    private static TanksideOptions Options(string? text) => TanksideOptions.From(
        new ConfigurationBuilder().AddInMemoryCollection(new Dictionary<string, string?> { [Key] = text, ["ConnectionStrings:Tankside"] = "Data Source=unused.db" }).Build(),
        new Nowhere());

    private sealed class Nowhere : IHostEnvironment
    {
        public string EnvironmentName { get; set; } = "Production";

        public string ApplicationName { get; set; } = "";

        public string ContentRootPath { get; set; } = Path.GetTempPath();

        public IFileProvider ContentRootFileProvider { get; set; } = new NullFileProvider();
    }
}
