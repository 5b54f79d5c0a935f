using System.Net;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

public class NewPasswordTests
{
    private const string Fresh = "button-up in the middle of march";

    private static readonly TimeSpan OverAMinute = TimeSpan.FromSeconds(61);

    [Theory, BothDatabases]
    public async Task The_answer_is_the_same_for_a_known_and_an_unknown_address(DatabaseKind kind)
    {
        var mail = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, mail.Settings);
        await using var _ = host;

        var unknown = await AskAsync(host, "nobody@example.test");
        var known = await AskAsync(host, world.One.EmailOf(Role.Teacher));

        Assert.Contains("If this address has an account", known, StringComparison.Ordinal);
        Assert.Equal(known, unknown);
        Assert.Equal(world.One.EmailOf(Role.Teacher), (await mail.NextAsync()).To);
    }

    [Theory]
    [InlineData("nobody@example.test")]
    [InlineData("teacher-a@example.test")]
    public async Task When_mail_is_down_the_page_says_so_to_everybody(string email)
    {
        var (host, _) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new MailSink(MailOutcome.Failed).Settings);
        await using var __ = host;

        var answer = await host.Anonymous().PostFormAsync("/forgot-password", new Dictionary<string, string> { ["Input.Email"] = email });

        Assert.Contains("Mail cannot be sent just now", await answer.NoticeAsync(), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_new_password_works_ends_other_sessions_and_voids_its_link(DatabaseKind kind)
    {
        var mail = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, mail.Settings);
        await using var _ = host;
        var email = world.One.EmailOf(Role.ProgrammeLead);
        var elsewhere = await host.ClientAs(Role.ProgrammeLead, world.One);
        await AskAsync(host, email);
        var link = MailSink.PathIn(await mail.NextAsync());

        var set = await SetAsync(host, link, Fresh);
        host.Time.Advance(OverAMinute);

        Assert.Equal(HttpStatusCode.Found, set.StatusCode);
        Assert.Equal(HttpStatusCode.Found, (await elsewhere.GetAsync("/people")).StatusCode);
        await host.Anonymous().SignInAsync(email, Fresh);
        await Assert.ThrowsAsync<InvalidOperationException>(() => host.Anonymous().SignInAsync(email, TestWorld.Password));
        Assert.Equal(HttpStatusCode.Gone, (await host.Anonymous().GetAsync(link)).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task A_session_goes_on_while_nothing_has_changed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        host.Time.Advance(OverAMinute);

        Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/people")).StatusCode);
    }

    [Fact]
    public async Task A_session_that_is_used_goes_on_for_ninety_days_and_ends_at_last()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        for (var days = 10; days <= 90; days += 10)
        {
            host.Time.Advance(TimeSpan.FromDays(10));
            Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/me")).StatusCode);
        }

        host.Time.Advance(TimeSpan.FromDays(1));

        Assert.StartsWith("/sign-in?", (await lead.GetAsync("/me")).Next(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Somebody_elses_pressing_writes_a_person_six_letters_a_day_and_no_more()
    {
        var mail = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, mail.Settings);
        await using var _ = host;
        var email = world.One.EmailOf(Role.Teacher);
        for (var times = 0; times < 6; times++)
        {
            await AskAsync(host, email);
            await mail.NextAsync();
            host.Time.Advance(OverAMinute);
        }

        // What is asked is answered in turn: once the next person's letter is there, the one before has been decided.
        await AskAsync(host, email);
        await AskAsync(host, world.One.EmailOf(Role.Coordinator));
        Assert.Equal(world.One.EmailOf(Role.Coordinator), (await mail.NextAsync()).To);
        host.Time.Advance(TimeSpan.FromDays(1));
        await AskAsync(host, email);
        Assert.Equal(email, (await mail.NextAsync()).To);
    }

    [Fact]
    public async Task A_form_sent_late_reads_that_its_link_is_used()
    {
        var mail = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, mail.Settings);
        await using var _ = host;
        await AskAsync(host, world.One.EmailOf(Role.Teacher));
        var link = MailSink.PathIn(await mail.NextAsync());
        var late = host.Anonymous();
        var form = await late.GetStringAsync(link);
        await SetAsync(host, link, Fresh);

        var answer = await late.PostSeenAsync(link, form, "reset", Passwords("another one entirely", "another one entirely"));

        Assert.Equal(HttpStatusCode.Gone, answer.StatusCode);
        Assert.Contains("This link no longer works.", await answer.WordsAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("minnow", "minnow", "12 to 200 characters")]
    [InlineData("long enough this time", "but not the same again", "The two passwords differ")]
    public async Task A_password_that_does_not_do_is_refused_and_never_sent_back(string password, string again, string says)
    {
        var mail = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, mail.Settings);
        await using var _ = host;
        await AskAsync(host, world.One.EmailOf(Role.Teacher));
        var link = MailSink.PathIn(await mail.NextAsync());

        var answer = await host.Anonymous().PostFormAsync(link, Passwords(password, again), "reset");

        Assert.Contains(says, await answer.WordsAsync(), StringComparison.Ordinal);
        Assert.DoesNotContain(password, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await host.Anonymous().SignInAsync(world.One.EmailOf(Role.Teacher), TestWorld.Password);
    }

    [Fact]
    public async Task A_made_up_link_opens_nothing()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        foreach (var code in new[] { "", "?code=", "?code=AAAA", "?code=not*base64" })
        {
            var answer = await host.Anonymous().GetAsync($"/reset-password/{world.One.People[Role.Teacher].Id}{code}");
            Assert.Equal(HttpStatusCode.Gone, answer.StatusCode);
        }
    }

    private static async Task<string?> AskAsync(PortalHost host, string email)
    {
        var client = host.Anonymous();
        var asked = await client.PostFormAsync("/forgot-password", new Dictionary<string, string> { ["Input.Email"] = email });
        return await (await client.GetAsync(asked.Headers.Location)).NoticeAsync();
    }

    private static Task<HttpResponseMessage> SetAsync(PortalHost host, string link, string password) =>
        host.Anonymous().PostFormAsync(link, Passwords(password, password), "reset");

    private static Dictionary<string, string> Passwords(string password, string again) =>
        new() { ["Input.Password"] = password, ["Input.Again"] = again };
}
