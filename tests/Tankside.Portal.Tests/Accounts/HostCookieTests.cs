using System.Net;
using Microsoft.AspNetCore.Mvc.Testing;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>Over HTTPS a session's cookie belongs to this host alone.</summary>
public class HostCookieTests
{
    [Fact]
    public async Task Over_HTTPS_the_session_is_bound_to_this_host_and_goes_with_signing_out()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        using var client = host.CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://localhost"), AllowAutoRedirect = false });

        using var answer = await client.PostFormAsync("/sign-in", new Dictionary<string, string> { ["Input.Email"] = world.One.EmailOf(Role.Teacher), ["Input.Password"] = TestWorld.Password });
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), c => c.StartsWith("__Host-tankside=", StringComparison.Ordinal));
        using var inside = await client.GetAsync("/tanks");
        using var left = await client.PostFormAsync("/tanks", new Dictionary<string, string>());
        using var outside = await client.GetAsync("/tanks");

        Assert.All(["; path=/;", "; secure;", "; samesite=lax;", "; httponly"], flag => Assert.Contains(flag, cookie, StringComparison.OrdinalIgnoreCase));
        Assert.DoesNotContain("domain=", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.OK, inside.StatusCode);
        Assert.Equal("/sign-in", left.Next());
        Assert.StartsWith("/sign-in?", outside.Next(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_cookie_that_a_page_sets_over_HTTPS_is_encrypted_and_closed_to_scripts()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);
        using var client = host.CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://localhost"), AllowAutoRedirect = false });

        var cookies = new List<string>();
        foreach (var address in new[] { "/sign-in", "/sign-in?lang=es" })
        {
            using var answer = await client.GetAsync(address);
            cookies.AddRange(answer.Headers.TryGetValues("Set-Cookie", out var set) ? set : []);
        }

        Assert.Contains(cookies, c => c.StartsWith("tankside-form=", StringComparison.Ordinal));
        Assert.All(cookies, c => Assert.All(["secure", "httponly", "samesite="], flag => Assert.Contains(flag, c, StringComparison.OrdinalIgnoreCase)));
    }
}
