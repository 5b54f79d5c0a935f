using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Mvc.Testing;
using Tankside.Hatchery.People;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Shell;

/// <summary>What a browser is told about every answer: whose scripts run, who may frame it, what it keeps.</summary>
public partial class PageSecurityTests
{
    [Fact]
    public async Task Every_answer_is_kept_to_our_own_scripts_frames_and_kinds()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);
        using var nobody = host.Anonymous();

        foreach (var address in new[] { "/", "/sign-in", "/bench", "/no-such-page", "/t/offline", "/t/no-such-code", "/run/no-such-code", "/mail/no-such", "/health/live", "/api/v1/tanks", "/css/app.css" })
        {
            using var answer = await nobody.GetAsync(address);
            var policy = Policy(answer);

            Assert.Contains(policy, p => p is "default-src 'none'" or "object-src 'none'");
            Assert.Contains("frame-ancestors 'none'", policy);
            Assert.Contains("form-action 'self'", policy);
            Assert.Contains(policy, p => p is "base-uri 'none'" or "base-uri 'self'");
            Assert.Matches("^script-src 'self'( 'nonce-[^']+')?$", Assert.Single(policy, p => p.StartsWith("script-src", StringComparison.Ordinal)));
            Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.Equal("no-referrer", answer.Headers.GetValues("Referrer-Policy").Single());
        }
    }

    [Fact]
    public async Task A_script_of_a_page_is_a_file_of_ours_or_carries_the_nonce_of_this_one_answer()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var nonces = new List<string>();
        foreach (var address in new[] { "/round", "/tanks/A001", "/me" })
        {
            using var answer = await coordinator.GetAsync(address);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            var page = await answer.Content.ReadAsStringAsync();
            nonces.Add(NonceOf().Match(string.Join(';', Policy(answer))).Groups[1].Value);

            var scripts = ScriptTag().Matches(page).Select(m => WebUtility.HtmlDecode(m.Groups[1].Value)).ToList();
            Assert.NotEmpty(scripts);
            Assert.All(scripts, tag => Assert.True(
                tag.Contains($"nonce=\"{nonces[^1]}\"", StringComparison.Ordinal) || OwnFile().IsMatch(tag), tag));
            Assert.DoesNotMatch(Handler(), page);
        }

        Assert.Equal(3, nonces.Where(n => n.Length >= 22).Distinct().Count());
    }

    [Theory]
    [InlineData("Production", "https://localhost", "max-age=31536000; includeSubDomains")]
    [InlineData("Production", "http://localhost", null)]
    [InlineData("Development", "https://localhost", null)]
    public async Task A_browser_that_came_by_HTTPS_is_kept_to_it_for_a_year_but_not_by_a_trial(string environment, string address, string? told)
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite, new PortalHostSettings { Environment = environment });
        using var client = host.CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri(address), AllowAutoRedirect = false });

        using var answer = await client.GetAsync("/health/live");

        Assert.Equal(told, answer.Headers.TryGetValues("Strict-Transport-Security", out var values) ? values.Single() : null);
    }

    [Theory]
    [InlineData("/round")]
    [InlineData("/me")]
    [InlineData("/changes.csv")]
    [InlineData("/totals/years/seasons.csv")]
    public async Task What_somebody_signed_in_reads_lies_in_no_cache(string address)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        using var answer = await (await host.ClientAs(Role.Coordinator, world.One)).GetAsync(address);

        Assert.Equal((HttpStatusCode.OK, true), (answer.StatusCode, answer.Headers.CacheControl?.NoStore));
    }

    private static List<string> Policy(HttpResponseMessage answer) =>
        [.. answer.Headers.GetValues("Content-Security-Policy").Single().Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)];

    [GeneratedRegex("'nonce-([^']+)'")]
    private static partial Regex NonceOf();

    [GeneratedRegex("<script\\b([^>]*)>")]
    private static partial Regex ScriptTag();

    [GeneratedRegex("src=\"(?!https?:|//)[^\"]+\"")]
    private static partial Regex OwnFile();

    /// <summary>A deed written into a tag, which no nonce can allow.</summary>
    [GeneratedRegex("<[a-z][^>]*\\son[a-z]+=", RegexOptions.IgnoreCase)]
    private static partial Regex Handler();
}
