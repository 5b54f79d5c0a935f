using System.Net;
using System.Net.WebSockets;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>The certificate is renewed while nginx goes on, by the file that is shipped.</summary>
public class CertificateRenewalTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    [NginxFact]
    public async Task What_shows_that_the_name_is_ours_is_found_without_TLS_and_everything_else_is_sent_on()
    {
        await using var portal = await StandInAsync();
        using var front = new ShippedNginx(PortOf(portal), Loopback.FreePort());
        var shown = Directory.CreateDirectory(Path.Combine(front.WebRoot, ".well-known", "acme-challenge"));
        await File.WriteAllTextAsync(Path.Combine(shown.FullName, "of-today"), "it is ours");
        await File.WriteAllTextAsync(Path.Combine(front.WebRoot, "not-for-strangers"), "not for strangers");
        using var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = front.PlainAddress };
        await UntilItServesAsync(client);

        Assert.Equal("it is ours", await client.GetStringAsync("/.well-known/acme-challenge/of-today"));
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/.well-known/acme-challenge/of-yesterday")).StatusCode);
        foreach (var other in new[] { "/", "/not-for-strangers", "/.well-known/acme-challenge/../../not-for-strangers", "/t/some-code?x=1" })
        {
            var answer = await client.GetAsync(other);
            Assert.Equal((HttpStatusCode.MovedPermanently, "https"), (answer.StatusCode, answer.Headers.Location?.Scheme));
        }
    }

    [NginxFact]
    public async Task A_new_certificate_is_taken_up_with_nobody_refused_and_an_open_page_left_open()
    {
        await using var portal = await StandInAsync();
        using var front = new ShippedNginx(PortOf(portal), Loopback.FreePort());
        using (var plain = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = front.PlainAddress })
        {
            await UntilItServesAsync(plain);
        }

        var (old, before) = (front.Certificate, await CertificateShownAsync(front));
        using var page = new ClientWebSocket();
        page.Options.RemoteCertificateValidationCallback = (_, shown, _, _) => shown?.GetCertHashString() == old;
        await page.ConnectAsync(new UriBuilder(front.Address) { Scheme = "wss", Path = "/page" }.Uri, CancellationToken.None);
        Assert.Equal("before", await EchoAsync(page, "before"));

        front.Renew();
        var until = DateTime.UtcNow + Patience;
        string after;
        do
        {
            // Throws when anybody is refused meanwhile.
            after = await CertificateShownAsync(front);
        }
        while (after == before && DateTime.UtcNow < until);

        Assert.Equal((old, front.Certificate), (before, after));
        Assert.NotEqual(before, after);
        Assert.Equal("after", await EchoAsync(page, "after"));
    }

    /// <summary>Asks over a line of its own, as a newcomer does.</summary>
    private static async Task<string> CertificateShownAsync(ShippedNginx front)
    {
        var hash = "";
        using var client = new HttpClient(new SocketsHttpHandler
        {
            SslOptions = { RemoteCertificateValidationCallback = (_, shown, _, _) => (hash = shown!.GetCertHashString()).Length > 0 },
        })
        { BaseAddress = front.Address };
        Assert.Equal("here", await client.GetStringAsync("/"));
        return hash;
    }

    private static async Task<string> EchoAsync(ClientWebSocket page, string word)
    {
        using var patience = new CancellationTokenSource(Patience);
        await page.SendAsync(System.Text.Encoding.UTF8.GetBytes(word), WebSocketMessageType.Text, true, patience.Token);
        var buffer = new byte[100];
        var back = await page.ReceiveAsync(buffer, patience.Token);
        return System.Text.Encoding.UTF8.GetString(buffer, 0, back.Count);
    }

    private static async Task UntilItServesAsync(HttpClient client)
    {
        for (var until = DateTime.UtcNow + Patience; ;)
        {
            try
            {
                using var answer = await client.GetAsync("/");
                return;
            }
            catch (HttpRequestException) when (DateTime.UtcNow < until)
            {
                await Task.Delay(50);
            }
        }
    }

    private static int PortOf(WebApplication portal) => new Uri(portal.Urls.Single()).Port;

    /// <summary>Answers, and says back what an open page says: what is looked at here is nginx.</summary>
    private static async Task<WebApplication> StandInAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        var portal = builder.Build();
        portal.Urls.Add($"http://127.0.0.1:{Loopback.FreePort()}");
        portal.UseWebSockets();
        portal.MapGet("/", () => "here");
        portal.Map("/page", async (HttpContext context) =>
        {
            using var page = await context.WebSockets.AcceptWebSocketAsync();
            var buffer = new byte[100];
            while (await page.ReceiveAsync(buffer, context.RequestAborted) is { MessageType: WebSocketMessageType.Text } said)
            {
                await page.SendAsync(buffer.AsMemory(0, said.Count), WebSocketMessageType.Text, true, context.RequestAborted);
            }
        });
        await portal.StartAsync();
        return portal;
    }
}
