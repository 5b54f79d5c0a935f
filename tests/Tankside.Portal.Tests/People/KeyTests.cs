using System.Net;
using System.Net.Http.Json;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.People;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.People;

/// <summary>Keys of loggers and other programs: made, shown once, replaced.</summary>
public partial class KeyTests
{
    private static readonly Dictionary<string, string> AllTanks = new() { ["Input.Name"] = "logger of Room 2", ["Input.Role"] = nameof(ApiKeyRole.Logger), ["Input.Reach"] = "all" };

    [Theory, BothDatabases]
    public async Task A_new_key_is_shown_once_and_works(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var sent = await lead.PostFormAsync("/people/keys/new", AllTanks, "key");
        var shown = await lead.GetAsync(sent.Headers.Location);
        var page = await shown.Content.ReadAsStringAsync();
        var key = ShownKey().Match(page).Groups[1].Value;

        Assert.True(shown.Headers.CacheControl!.NoStore);
        Assert.DoesNotContain(key, sent.Headers.Location!.ToString(), StringComparison.Ordinal);
        Assert.Contains($"curl -H &#x27;Authorization: Bearer {key}&#x27;", page, StringComparison.Ordinal);
        Assert.Contains($"{PortalHost.PublicUrl}api/v1/readings", page, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, await SendAsync(host, key, "A002"));
        Assert.Contains("The key is not shown again.", await lead.WordsAsync(sent.Headers.Location.ToString()), StringComparison.Ordinal);
        Assert.DoesNotContain(key, await lead.GetStringAsync("/people"), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.False(await db.ApiKeys.AnyAsync(k => k.SecretHash == key));
    }

    [Theory, BothDatabases]
    public async Task A_key_for_chosen_tanks_serves_those_alone(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var key = await IssueAsync(lead, new() { ["Input.Name"] = "weir logger", ["Input.Role"] = nameof(ApiKeyRole.Logger), ["Input.Reach"] = "some", ["Input.Tanks"] = $"{world.One.Tanks[1].Id}" });

        Assert.Contains("\"accepted\":1", await AnswerAsync(host, key, "A002"), StringComparison.Ordinal);
        Assert.Contains("There is no tank with this code for this key.", await AnswerAsync(host, key, "A001"), StringComparison.Ordinal);
        Assert.Contains("weir logger Logger: adds readings A002", await lead.WordsAsync("/people"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_key_has_a_name_and_its_use_is_noted_at_most_once_an_hour(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var nameless = await lead.PostFormAsync("/people/keys/new", new Dictionary<string, string>(AllTanks) { ["Input.Name"] = " " }, "key");
        var key = await IssueAsync(lead, AllTanks);
        Assert.Contains("Give the key a name", await nameless.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("logger of Room 2 Logger: adds readings all, also new ones 3 February 2027 not yet", await lead.WordsAsync("/people"), StringComparison.Ordinal);

        await SendAsync(host, key, "A001");
        var first = host.Now;
        host.Time.Advance(ApiKey.UseIsNotedEvery - TimeSpan.FromSeconds(1));
        await SendAsync(host, key, "A001");
        await using var db = host.OpenDb();
        var hash = Secrets.Hash(key);
        var within = await db.ApiKeys.Where(k => k.SecretHash == hash).Select(k => k.LastUsedAt).SingleAsync();
        host.Time.Advance(TimeSpan.FromSeconds(1));
        await SendAsync(host, key, "A001");

        Assert.Equal(first, within);
        Assert.Equal(host.Now, await db.ApiKeys.Where(k => k.SecretHash == hash).Select(k => k.LastUsedAt).SingleAsync());
        Assert.Contains("Wednesday 3 February 2027, 09:15", await lead.WordsAsync("/people"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_key_for_no_tank_or_for_somebody_elses_is_not_made(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        Dictionary<string, string> some = new() { ["Input.Name"] = "map", ["Input.Role"] = nameof(ApiKeyRole.Coordinator), ["Input.Reach"] = "some" };

        var none = await lead.PostFormAsync("/people/keys/new", some, "key");
        var theirs = await lead.PostFormAsync("/people/keys/new", new Dictionary<string, string>(some) { ["Input.Tanks"] = $"{world.Two.Tanks[0].Id}" }, "key");

        var both = await lead.PostFormAsync("/people/keys/new", new Dictionary<string, string>(AllTanks) { ["Input.Tanks"] = $"{world.One.Tanks[0].Id}" }, "key");

        Assert.Contains("You ticked tanks, but all are chosen.", await both.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("Choose the tanks of this key, or all of them.", await none.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("One of these tanks is not there any more.", await theirs.WordsAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(4, await db.ApiKeys.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task A_successor_has_the_same_reach_and_the_old_key_goes_on_until_it_is_revoked(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var next = await RotateAsync(host, lead, world, "on");

        Assert.Equal(HttpStatusCode.OK, await SendAsync(host, world.One.LoggerKey, "A001"));
        Assert.Contains("\"accepted\":1", await AnswerAsync(host, next, "A001"), StringComparison.Ordinal);
        Assert.Contains("There is no tank with this code for this key.", await AnswerAsync(host, next, "A002"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task An_old_key_that_somebody_else_may_have_stops_with_its_successor(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var old = await LoggerKeyAsync(host, world.One);

        var next = await RotateAsync(host, lead, world, "stop");

        Assert.Equal(HttpStatusCode.Unauthorized, await SendAsync(host, world.One.LoggerKey, "A001"));
        Assert.Equal(HttpStatusCode.OK, await SendAsync(host, next, "A001"));
        Assert.Equal(HttpStatusCode.NotFound, (await lead.GetAsync($"/people/keys/{old}/replace")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task Of_two_who_stop_the_same_key_at_once_one_gets_a_successor(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var user = new CurrentUser(world.One.People[Role.ProgrammeLead].Id, world.One.Programme.Id, Role.ProgrammeLead, null);
        var key = await LoggerKeyAsync(host, world.One);

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 2).Select(_ =>
            host.CallAsync<IssueKey, KeyOutcome>(issue => issue.RotateAsync(user, key, stopOld: true, CancellationToken.None))));

        Assert.Single(outcomes.OfType<KeyOutcome.Issued>());
        await using var db = host.OpenDb();
        Assert.Equal(5, await db.ApiKeys.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task Another_programmes_key_is_not_found_and_gets_no_successor(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var theirs = await LoggerKeyAsync(host, world.Two);
        var seen = await lead.GetStringAsync($"/people/keys/{await LoggerKeyAsync(host, world.One)}/replace");

        Assert.Equal(HttpStatusCode.NotFound, (await lead.GetAsync($"/people/keys/{theirs}/replace")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await lead.PostSeenAsync($"/people/keys/{theirs}/replace", seen, "rotate", new Dictionary<string, string> { ["Input.Old"] = "stop" })).StatusCode);
        await using var db = host.OpenDb();
        Assert.Equal((4, 0), (await db.ApiKeys.CountAsync(), await db.ApiKeys.CountAsync(k => k.RevokedAt != null)));
    }

    private static async Task<string> IssueAsync(HttpClient lead, Dictionary<string, string> fields, string address = "/people/keys/new", string form = "key")
    {
        var sent = await lead.PostFormAsync(address, fields, form);
        return ShownKey().Match(await lead.GetStringAsync(sent.Headers.Location)).Groups[1].Value;
    }

    private static async Task<string> RotateAsync(PortalHost host, HttpClient lead, TestWorld world, string old) =>
        await IssueAsync(lead, new() { ["Input.Old"] = old }, $"/people/keys/{await LoggerKeyAsync(host, world.One)}/replace", "rotate");

    private static async Task<Guid> LoggerKeyAsync(PortalHost host, TestProgramme programme)
    {
        await using var db = host.OpenDb();
        return await db.ApiKeys.Where(k => k.ProgrammeId == programme.Programme.Id && k.Role == ApiKeyRole.Logger).Select(k => k.Id).SingleAsync();
    }

    private static Task<HttpResponseMessage> PostAsync(PortalHost host, string key, string tank) => host.ClientWithKey(key).PostAsJsonAsync(
        "/api/v1/readings", new { readings = new[] { new { id = Guid.NewGuid(), tank, at = host.Now.AddMinutes(-5), waterC = 10.5 } } });

    private static async Task<HttpStatusCode> SendAsync(PortalHost host, string key, string tank) => (await PostAsync(host, key, tank)).StatusCode;

    private static async Task<string> AnswerAsync(PortalHost host, string key, string tank) =>
        await (await PostAsync(host, key, tank)).Content.ReadAsStringAsync();

    [GeneratedRegex("id=\"key\"[^>]*value=\"([^\"]*)\"")]
    private static partial Regex ShownKey();
}
