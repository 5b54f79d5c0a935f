using System.Net;
using Microsoft.AspNetCore.Http;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Shell;

/// <summary>The line of a living page is opened by pages of this portal, whatever cookies come along.</summary>
public class OwnOriginTests
{
    [Theory]
    [InlineData("http://localhost", true)]
    [InlineData("https://tankside.example.test", true)]
    [InlineData("https://elsewhere.test", false)]
    [InlineData("http://localhost:9999", false)]
    [InlineData("http://localhost.elsewhere.test", false)]
    [InlineData("null", false)]
    [InlineData(null, false)]
    public async Task A_websocket_is_opened_by_our_own_page_only(string? origin, bool opens)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var sent = await SecondSteps.PasswordAsync(host.Anonymous(), world.One.EmailOf(Role.Coordinator));
        var cookie = sent.Headers.GetValues("Set-Cookie").Single(c => c.StartsWith("tankside=", StringComparison.Ordinal)).Split(';')[0];
        var sockets = host.Server.CreateWebSocketClient();
        sockets.ConfigureRequest = request =>
        {
            request.Headers.Cookie = cookie;
            request.Headers.Origin = origin;
        };

        var line = sockets.ConnectAsync(new Uri("ws://localhost/_blazor"), CancellationToken.None);

        if (opens)
        {
            using var open = await line;
            Assert.Equal(System.Net.WebSockets.WebSocketState.Open, open.State);
        }
        else
        {
            Assert.Contains("403", (await Assert.ThrowsAsync<InvalidOperationException>(() => line)).Message, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("https://elsewhere.test", HttpStatusCode.Forbidden)]
    [InlineData("http://localhost", HttpStatusCode.OK)]
    [InlineData(null, HttpStatusCode.OK)]
    public async Task The_question_before_it_is_answered_to_our_own_page_only(string? origin, HttpStatusCode answer)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        if (origin is not null)
        {
            coordinator.DefaultRequestHeaders.Add("Origin", origin);
        }

        Assert.Equal(answer, (await coordinator.PostAsync("/_blazor/negotiate?negotiateVersion=1", null)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await coordinator.GetAsync("/me")).StatusCode);
    }

    [Theory]
    [InlineData("tanks.example.org:8443", "https://tanks.example.org:8443", true)]
    [InlineData("TANKS.example.org", "https://tanks.example.org", true)]
    [InlineData("tanks.example.org", "https://tanks.example.org:8443", false)]
    [InlineData("127.0.0.1:5081", "https://tankside.example.test", true)]
    [InlineData("127.0.0.1:5081", "https://tanks.example.org", false)]
    public void The_host_that_was_asked_counts_and_the_public_one(string host, string origin, bool own)
    {
        var request = new DefaultHttpContext().Request;
        (request.Host, request.Headers.Origin) = (new HostString(host), origin);

        Assert.Equal(own, OwnOrigin.IsOwn(request, new Uri(PortalHost.PublicUrl)));
    }
}
