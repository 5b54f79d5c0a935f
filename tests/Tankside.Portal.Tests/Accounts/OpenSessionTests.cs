using System.Net;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>Where somebody is signed in, and how a session ends.</summary>
public class OpenSessionTests
{
    private const string
        Laptop = "Mozilla/5.0 (Windows NT 10.0; Win64; x64; rv:130.0) Gecko/20100101 Firefox/130.0",
        Phone = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.0 Mobile/15E148 Safari/604.1";

    private static readonly TimeSpan OverAMinute = TimeSpan.FromSeconds(61);

    [Theory, BothDatabases]
    public async Task A_person_sees_where_they_are_signed_in_and_ends_one_or_all_others(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (phone, laptop, other) = (await InAsync(host, world, Phone), await InAsync(host, world, Laptop), await InAsync(host, world, "curl/8"));
        var page = await phone.Client.GetStringAsync("/me/sign-in");
        var words = await phone.Client.WordsAsync("/me/sign-in");
        var laptopId = Id(host, laptop.Cookie);

        var guessed = await EndAsync(phone.Client, laptopId, "a guess");
        Assert.Contains("This is not your password.", await guessed.WordsAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await laptop.Client.GetAsync("/me")).StatusCode);
        var one = await EndAsync(phone.Client, laptopId, TestWorld.Password);

        Assert.Contains("Safari on iPhone Wednesday 3 February 2027, 08:15 now: this one", words, StringComparison.Ordinal);
        Assert.Contains("Firefox on Windows Wednesday 3 February 2027, 08:15 Wednesday 3 February 2027, 08:15", words, StringComparison.Ordinal);
        Assert.Contains("a browser that does not say what it is", words, StringComparison.Ordinal);
        Assert.DoesNotContain($"value=\"{Id(host, phone.Cookie)}\"", page, StringComparison.Ordinal);
        Assert.Contains("1 session is ended.", await (await phone.Client.GetAsync(one.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        Assert.StartsWith("/sign-in?", (await laptop.Client.GetAsync("/me")).Next(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await other.Client.GetAsync("/me")).StatusCode);
        await EndAsync(phone.Client, "others", TestWorld.Password);
        Assert.StartsWith("/sign-in?", (await other.Client.GetAsync("/me")).Next(), StringComparison.Ordinal);
        host.Time.Advance(OverAMinute);
        Assert.Contains("Here and nowhere else.", await phone.Client.WordsAsync("/me/sign-in"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Nobody_ends_the_session_of_somebody_else(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (mine, again) = (await InAsync(host, world, Phone), await InAsync(host, world, Laptop));
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        await host.ClientAs(Role.ProgrammeLead, world.One);

        await EndAsync(lead, Id(host, mine.Cookie), TestWorld.Password);
        await EndAsync(lead, "others", TestWorld.Password);
        host.Time.Advance(OverAMinute);

        Assert.Equal(HttpStatusCode.OK, (await mine.Client.GetAsync("/me")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await again.Client.GetAsync("/me")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task After_signing_out_a_copy_of_the_cookie_is_worth_nothing_here_at_once_and_at_another_portal_within_a_minute(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var mine = await InAsync(host, world, Phone);
        await using var neighbour = host.Neighbour();
        Assert.Equal(HttpStatusCode.OK, (await WithAsync(host, mine.Cookie)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await WithAsync(neighbour, mine.Cookie)).StatusCode);

        await mine.Client.PostFormAsync("/me", new Dictionary<string, string>());
        neighbour.Time.Advance(OverAMinute);

        Assert.StartsWith("/sign-in?", (await WithAsync(host, mine.Cookie)).Next(), StringComparison.Ordinal);
        Assert.StartsWith("/sign-in?", (await WithAsync(neighbour, mine.Cookie)).Next(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(0, await db.OpenSessions.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task That_a_session_is_used_is_written_once_an_hour_and_not_with_every_page(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var mine = await InAsync(host, world, Phone);

        foreach (var minutes in new[] { 2, 20, 37 })
        {
            host.Time.Advance(TimeSpan.FromMinutes(minutes));
            await mine.Client.GetAsync("/me");
            Assert.Equal(TestWorld.Now, await LastUsedAsync(host));
        }

        host.Time.Advance(TimeSpan.FromMinutes(2));
        await mine.Client.GetAsync("/me");
        Assert.Equal(TestWorld.Now.AddMinutes(61), await LastUsedAsync(host));
    }

    [Theory, BothDatabases]
    public async Task Signing_in_again_in_the_same_browser_leaves_one_session(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var mine = await InAsync(host, world, Phone);

        await mine.Client.PostAsync("/sign-in", new FormUrlEncodedContent(new Dictionary<string, string>()));
        var token = await mine.Client.GetStringAsync("/me");
        await mine.Client.PostSeenAsync("/sign-in", token, "sign-in", new Dictionary<string, string> { ["Input.Email"] = world.One.EmailOf(Role.Coordinator), ["Input.Password"] = TestWorld.Password });

        await using var db = host.OpenDb();
        Assert.NotEqual(Id(host, mine.Cookie), (await db.OpenSessions.SingleAsync()).Id.ToString());
    }

    [Theory, BothDatabases]
    public async Task A_lead_signs_a_member_out_everywhere(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (mine, lead) = (await InAsync(host, world, Phone), await host.ClientAs(Role.ProgrammeLead, world.One));
        await using var db = host.OpenDb();
        var (here, there) = (await PlaceAsync(db, world.One), await PlaceAsync(db, world.Two));

        var sent = await lead.PostFormAsync($"/people/{here}", new Dictionary<string, string>(), "sessions");
        var told = await (await lead.GetAsync(sent.Headers.Location)).NoticeAsync();
        var stranger = await lead.PostSeenAsync($"/people/{there}", await lead.GetStringAsync($"/people/{here}"), "sessions", new Dictionary<string, string>());
        host.Time.Advance(OverAMinute);

        Assert.Contains("is signed out everywhere within a minute.", told, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, stranger.StatusCode);
        Assert.StartsWith("/sign-in?", (await mine.Client.GetAsync("/me")).Next(), StringComparison.Ordinal);
        var again = await InAsync(host, world, Laptop);
        Assert.Contains("Here and nowhere else.", await again.Client.WordsAsync("/me/sign-in"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_page_that_stays_open_ends_with_its_session_its_password_and_a_second_step_that_is_owed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (ended, owing, renamed) = (await InAsync(host, world, Phone), await InAsync(host, world, Laptop), await InAsync(host, world, Laptop));
        foreach (var each in new[] { ended, owing, renamed })
        {
            Assert.True(await HoldsAsync(host, each.Cookie));
        }

        await ended.Client.PostFormAsync("/me", new Dictionary<string, string>());
        Assert.False(await HoldsAsync(host, ended.Cookie));
        Assert.True(await HoldsAsync(host, owing.Cookie));
        await using var db = host.OpenDb();
        await db.Programmes.ExecuteUpdateAsync(set => set.SetProperty(p => p.SecondStepFor, StepDemand.Everybody));
        Assert.False(await HoldsAsync(host, owing.Cookie));
        await db.Programmes.ExecuteUpdateAsync(set => set.SetProperty(p => p.SecondStepFor, StepDemand.Nobody));
        Assert.True(await HoldsAsync(host, renamed.Cookie));
        await db.Users.ExecuteUpdateAsync(set => set.SetProperty(p => p.SecurityStamp, "another"));
        Assert.False(await HoldsAsync(host, renamed.Cookie));
    }

    [Theory, BothDatabases]
    public async Task A_cookie_of_a_program_that_kept_no_sessions_asks_for_the_password_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var mine = await InAsync(host, world, Phone);
        var ticket = Format(host).Unprotect(mine.Cookie)!;
        Assert.True(ticket.Properties.Items.Remove("session"));

        var answer = await WithAsync(host, Format(host).Protect(new AuthenticationTicket(ticket.Principal, ticket.Properties, ticket.AuthenticationScheme)));

        Assert.StartsWith("/sign-in?", answer.Next(), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task What_is_over_is_let_go_and_ones_own_data_name_what_is_open(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var person = world.One.People[Role.Coordinator];
        var mine = await InAsync(host, world, Laptop);
        await host.SeedAsync(db => db.AddRange(Row(TestWorld.Now.AddDays(-16), TestWorld.Now.AddDays(-16)), Row(TestWorld.Now.AddDays(-91), TestWorld.Now), Row(TestWorld.Now.AddDays(-20), TestWorld.Now.AddDays(-14))));

        var data = await mine.Client.GetStringAsync("/me/data.json");
        await host.CallAsync<OpenSessions, bool>(async s => { await s.ForgetOldAsync(CancellationToken.None); return true; });

        Assert.Contains("\"browser\": \"Firefox\"", data, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal([TestWorld.Now.AddDays(-20), TestWorld.Now], await db.OpenSessions.Select(s => s.BeganAt).Order().ToListAsync());
        await mine.Client.PostFormAsync("/me/data", new Dictionary<string, string> { ["Input.Confirm"] = person.Email! }, "erase");
        Assert.Equal(0, await db.OpenSessions.CountAsync());

        OpenSession Row(DateTime began, DateTime used) => new() { Id = Guid.NewGuid(), PersonId = person.Id, Stamp = person.SecurityStamp!, BeganAt = began, LastUsedAt = used };
    }

    [Fact]
    public void Nothing_is_kept_of_a_session_but_two_words_and_two_times() => Assert.Equal(
        ["BeganAt", "Browser", "Id", "LastUsedAt", "PersonId", "Stamp", "System"], typeof(OpenSession).GetProperties().Select(p => p.Name).Order(StringComparer.Ordinal));

    [Theory]
    [InlineData(Laptop, "Firefox", "Windows")]
    [InlineData(Phone, "Safari", "iPhone")]
    [InlineData("Mozilla/5.0 (Linux; Android 14; Pixel 8) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/128.0.0.0 Mobile Safari/537.36", "Chrome", "Android")]
    [InlineData("Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/128.0.0.0 Safari/537.36 Edg/128.0.0.0", "Edge", "Windows")]
    [InlineData("Mozilla/5.0 (X11; CrOS x86_64 14541.0.0) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/128.0.0.0 Safari/537.36", "Chrome", "ChromeOS")]
    [InlineData("Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.6 Safari/605.1.15", "Safari", "Mac")]
    [InlineData("Mozilla/5.0 (iPad; CPU OS 17_6 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) CriOS/128.0 Mobile/15E148 Safari/604.1", "Chrome", "iPad")]
    [InlineData("<script>", null, null)]
    [InlineData(null, null, null)]
    public void A_browser_is_told_in_two_words(string? userAgent, string? browser, string? system) => Assert.Equal((browser, system), BrowserWords.Of(userAgent));

    private static async Task<(HttpClient Client, string Cookie)> InAsync(PortalHost host, TestWorld world, string userAgent)
    {
        var client = host.Anonymous();
        client.DefaultRequestHeaders.TryAddWithoutValidation("User-Agent", userAgent);
        var sent = await SecondSteps.PasswordAsync(client, world.One.EmailOf(Role.Coordinator));
        return (client, sent.Headers.GetValues("Set-Cookie").Single(c => c.StartsWith("tankside=", StringComparison.Ordinal)).Split('=', 2)[1].Split(';')[0]);
    }

    private static Task<HttpResponseMessage> EndAsync(HttpClient client, string which, string password) =>
        client.PostFormAsync("/me/sign-in", new Dictionary<string, string> { ["Session"] = which, ["SessionsPassword"] = password }, "sessions");

    private static ISecureDataFormat<AuthenticationTicket> Format(PortalHost host) =>
        host.Services.GetRequiredService<IOptionsMonitor<CookieAuthenticationOptions>>().Get(IdentityConstants.ApplicationScheme).TicketDataFormat;

    private static string Id(PortalHost host, string cookie) => Sessions.IdOf(Format(host).Unprotect(cookie)!.Properties)!.Value.ToString();

    private static Task<bool> HoldsAsync(PortalHost host, string cookie) =>
        host.CallAsync<LivingSession, bool>(s => s.HoldsAsync(Format(host).Unprotect(cookie)!.Principal));

    private static Task<HttpResponseMessage> WithAsync(PortalHost host, string cookie)
    {
        var client = host.Anonymous();
        client.DefaultRequestHeaders.Add("Cookie", $"tankside={cookie}");
        return client.GetAsync("/me");
    }

    private static async Task<DateTime> LastUsedAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return await db.OpenSessions.Select(s => s.LastUsedAt).SingleAsync();
    }

    private static Task<Guid> PlaceAsync(HatcheryDb db, TestProgramme programme)
    {
        var (of, person) = (programme.Programme.Id, programme.People[Role.Coordinator].Id);
        return db.Memberships.Where(m => m.ProgrammeId == of && m.PersonId == person).Select(m => m.Id).SingleAsync();
    }
}
