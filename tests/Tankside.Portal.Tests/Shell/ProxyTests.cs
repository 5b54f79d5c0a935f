using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting.Internal;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Shell;

/// <summary>Whose word about a visitor is believed.</summary>
public class ProxyTests
{
    private const string Key = "Tankside:Proxies";

    [Theory]
    [InlineData("127.0.0.1", "", true)]
    [InlineData("10.0.3.7", "", false)]
    [InlineData("10.0.3.7", "10.0.3.7", true)]
    [InlineData("10.0.3.8", "10.0.3.7", false)]
    [InlineData("172.19.0.4", "10.0.3.7, 172.16.0.0/12", true)]
    public async Task Only_a_proxy_that_is_named_is_believed_that_a_call_came_encrypted(string caller, string proxies, bool believed)
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite, new PortalHostSettings
        {
            Environment = "Production",
            Keys = new Dictionary<string, string> { [Key] = proxies },
            Services = services => services.AddSingleton<IStartupFilter>(new CallsFrom(IPAddress.Parse(caller))),
        });
        using var request = new HttpRequestMessage(HttpMethod.Get, "/health/live") { Headers = { { "X-Forwarded-For", "192.0.2.7" }, { "X-Forwarded-Proto", "https" } } };

        using var answer = await host.Anonymous().SendAsync(request);

        // Said to encrypted calls alone.
        Assert.Equal(believed, answer.Headers.Contains("Strict-Transport-Security"));
    }

    [Theory]
    [InlineData("the proxy")]
    [InlineData("10.0.3.7, 172.16.0.0/twelve")]
    [InlineData("10.0.0.0/33")]
    public void A_proxy_that_is_no_address_stops_the_start_and_names_its_key(string text) =>
        Assert.StartsWith($"{Key}: '", Assert.Throws<ConfigurationException>(() => TanksideOptions.From(
            new ConfigurationBuilder().AddInMemoryCollection(new Dictionary<string, string?> { [Key] = text, ["ConnectionStrings:Tankside"] = "Data Source=unused.db" }).Build(),
            new HostingEnvironment { EnvironmentName = "Production", ContentRootPath = Path.GetTempPath() })).Message, StringComparison.Ordinal);

    /// <summary>Puts the address of whoever calls the portal in the place where a real connection has it.</summary>
    private sealed class CallsFrom(IPAddress address) : IStartupFilter
    {
        public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
        {
            app.Use((context, go) =>
            {
                context.Connection.RemoteIpAddress = address;
                return go(context);
            });
            next(app);
        };
    }
}
