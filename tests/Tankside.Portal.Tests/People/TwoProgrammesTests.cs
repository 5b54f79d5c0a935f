using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.People;

/// <summary>Several programmes in one installation, and somebody who is in two of them.</summary>
public class TwoProgrammesTests
{
    private const Role InOne = Role.Coordinator, InTwo = Role.ProgrammeLead;

    [Theory, BothDatabases]
    public async Task An_invitation_to_a_second_programme_leads_into_it_and_nothing_of_the_other_shows_while_in_one(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var person = world.Two.People[InTwo];
        var both = await JoinAsync(host, world);

        await AssertSeesAsync(both, world.One, world.Two);
        Assert.Equal(HttpStatusCode.Redirect, (await both.GetAsync("/people")).StatusCode);
        var changed = await ChooseAsync(both, world.Two);

        Assert.Equal("/", changed.Next());
        await AssertSeesAsync(both, world.Two, world.One);
        Assert.Equal(HttpStatusCode.OK, (await both.GetAsync("/people")).StatusCode);
        var nextDay = host.Anonymous();
        await nextDay.SignInAsync(person.Email!, TestWorld.Password);
        await AssertSeesAsync(nextDay, world.Two, world.One);
        var (first, second) = (await both.GetStringAsync("/me/data.json"), await (await host.ClientAs(InOne, world.One)).WordsAsync("/me/programme"));
        Assert.Contains(world.One.Programme.Name, first, StringComparison.Ordinal);
        Assert.Contains(world.Two.Programme.Name, first, StringComparison.Ordinal);
        Assert.DoesNotContain(world.Two.Programme.Name, second, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_choice_turns_no_page_on_another_computer_and_no_form_left_open(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var desk = await JoinAsync(host, world);
        var phone = host.Anonymous();
        await phone.SignInAsync(world.Two.EmailOf(InTwo), TestWorld.Password);
        var left = await desk.OpenFormAsync("/schools/new", new Dictionary<string, string>(), "school");

        await ChooseAsync(desk, world.Two);
        host.Time.Advance(Sessions.CheckEvery + TimeSpan.FromSeconds(1));

        await AssertSeesAsync(phone, world.One, world.Two);
        await AssertSeesAsync(desk, world.Two, world.One);
        Assert.Equal(HttpStatusCode.BadRequest, (await left()).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task Whoever_leaves_one_stays_in_the_other_and_no_lead_comes_by_them_into_another_programme(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var person = world.Two.People[InTwo];
        await JoinAsync(host, world);
        await using var db = host.OpenDb();
        var place = await db.Memberships.Where(m => m.PersonId == person.Id && m.ProgrammeId == world.One.Programme.Id).Select(m => m.Id).SingleAsync();
        await db.Users.Where(p => p.Id == person.Id).ExecuteUpdateAsync(set => set.SetProperty(p => p.TwoFactorEnabled, true));
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        foreach (var form in new[] { "password", "step" })
        {
            var refused = await lead.GetAsync((await lead.PostFormAsync($"/people/{place}", new Dictionary<string, string>(), form)).Headers.Location);
            Assert.Contains("is in another programme here too", await refused.NoticeAsync(), StringComparison.Ordinal);
            Assert.Null(await refused.LinkToHandOnAsync());
        }

        await db.Users.Where(p => p.Id == person.Id).ExecuteUpdateAsync(set => set.SetProperty(p => p.TwoFactorEnabled, false));
        await lead.PostFormAsync($"/people/{place}", new Dictionary<string, string>(), "remove");
        var after = host.Anonymous();
        await after.SignInAsync(person.Email!, TestWorld.Password);
        await AssertSeesAsync(after, world.Two, world.One);
        Assert.DoesNotContain("/me/programme", await after.GetStringAsync("/tanks"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_name_that_changes_is_written_down_in_both(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var both = await JoinAsync(host, world);

        await both.PostFormAsync("/me", new Dictionary<string, string> { ["Input.Name"] = "Ada Weir" }, "me");

        await using var db = host.OpenDb();
        var id = world.Two.People[InTwo].Id;
        var told = await db.Changes.Where(c => c.What == "Person" && c.About == id).Select(c => c.ProgrammeId).ToListAsync();
        Assert.Equal(new[] { world.One.Programme.Id, world.Two.Programme.Id }.Order(), told.Order());
    }

    [Theory, BothDatabases]
    public async Task A_lead_keeps_the_kind_and_the_last_day_of_a_check_and_sees_whose_is_wanting(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using var db = host.OpenDb();
        var person = world.One.People[Role.KitHand];
        var place = await db.Memberships.Where(m => m.PersonId == person.Id).Select(m => m.Id).SingleAsync();
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        Task<HttpResponseMessage> KeepAsync(string what, string until) => lead.PostFormAsync(
            $"/people/{place}", new Dictionary<string, string> { ["CheckKind"] = what, ["CheckUntil"] = until }, "check");

        Assert.Contains($"{person.Name} : none", await lead.WordsAsync("/people"), StringComparison.Ordinal);
        Assert.Contains("Nothing was changed.", await (await KeepAsync("state check", "")).WordsAsync(), StringComparison.Ordinal);
        await KeepAsync("state check", "2027-03-05");
        Assert.Contains($"{person.Name} : ends on 5 March 2027", await lead.WordsAsync("/people"), StringComparison.Ordinal);
        await KeepAsync("state check", "2027-03-06");
        Assert.DoesNotContain($"{person.Name} : ", await lead.WordsAsync("/people"), StringComparison.Ordinal);

        var own = await host.ClientAs(Role.KitHand, world.One);
        Assert.Contains("state check, until 2027-03-06", await own.WordsAsync("/me/data"), StringComparison.Ordinal);
        Assert.DoesNotContain("2027-03", string.Concat(await db.Changes.Where(c => c.What == "Membership").Select(c => c.Fields).ToListAsync()), StringComparison.Ordinal);
    }

    /// <summary>The lead of the second programme accepts an invitation to the first as its coordinator.</summary>
    private static async Task<HttpClient> JoinAsync(PortalHost host, TestWorld world)
    {
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var link = (await (await lead.InviteAsync(world.Two.EmailOf(InTwo), InOne)).LinkToHandOnAsync())!;
        var client = host.Anonymous();
        var accepted = await client.AcceptAsync(link, password: TestWorld.Password);
        Assert.Equal("/", accepted.Next());
        return client;
    }

    private static Task<HttpResponseMessage> ChooseAsync(HttpClient client, TestProgramme programme) =>
        client.PostFormAsync("/me/programme", new Dictionary<string, string> { ["Input.Programme"] = $"{programme.Programme.Id}" }, "programme");

    private static async Task AssertSeesAsync(HttpClient client, TestProgramme own, TestProgramme other)
    {
        foreach (var address in new[] { "/tanks", "/round", "/calendar", "/kit", "/ledger", "/releases", "/schools", "/changes", "/lots", "/totals", "/handover" })
        {
            var words = await client.WordsAsync(address);
            Assert.False(words.Contains(other.Tanks[0].Code, StringComparison.Ordinal) || words.Contains(other.Programme.Name, StringComparison.Ordinal), $"{address} tells of {other.Programme.Name}");
        }

        Assert.Contains(own.Tanks[0].Code, await client.WordsAsync("/tanks"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync($"/tanks/{other.Tanks[0].Code}")).StatusCode);
    }
}
