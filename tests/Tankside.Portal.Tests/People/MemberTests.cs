using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.People;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.People;

public class MemberTests
{
    private static readonly Dictionary<string, string> Nothing = [];

    private static readonly TimeSpan OverAMinute = TimeSpan.FromSeconds(61);

    [Theory, BothDatabases]
    public async Task The_people_of_another_programme_are_not_seen(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var words = await lead.WordsAsync("/people");

        Assert.Contains("5 people are in Reed Valley.", words, StringComparison.Ordinal);
        Assert.All(world.One.People.Values, p => Assert.Contains(p.Email!, words, StringComparison.Ordinal));
        Assert.All(world.Two.People.Values, p => Assert.DoesNotContain(p.Email!, words, StringComparison.Ordinal));
        Assert.DoesNotContain(world.Two.Schools[0].Id.ToString(), await lead.GetStringAsync("/people"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Another_programmes_member_is_not_found_and_not_changed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var theirs = await MembershipAsync(host, world.Two, Role.Coordinator);
        var seen = await lead.GetStringAsync($"/people/{await MembershipAsync(host, world.One, Role.Coordinator)}");

        Assert.Equal(HttpStatusCode.NotFound, (await lead.GetAsync($"/people/{theirs}")).StatusCode);
        foreach (var form in new[] { "role", "password", "remove" })
        {
            var answer = await lead.PostSeenAsync($"/people/{theirs}", seen, form, new Dictionary<string, string> { ["Input.Role"] = "KitHand" });
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }

        await using var db = host.OpenDb();
        Assert.Equal(Role.Coordinator, (await db.Memberships.SingleAsync(m => m.Id == theirs)).Role);
    }

    [Theory, BothDatabases]
    public async Task A_changed_role_ends_the_open_session(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var membership = await MembershipAsync(host, world.One, Role.Coordinator);

        var told = await lead.ChangeRoleAsync(membership, Role.Teacher, world.One.Schools[1].Id);
        host.Time.Advance(OverAMinute);
        var sent = await coordinator.GetAsync("/people");

        Assert.Contains("Coordinator A has the role that you chose: teacher.", await told.NoticeAsync(), StringComparison.Ordinal);
        Assert.StartsWith("/sign-in", sent.Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var changed = await db.Memberships.SingleAsync(m => m.Id == membership);
        Assert.Equal((Role.Teacher, world.One.Schools[1].Id), (changed.Role, changed.SchoolId!.Value));
    }

    [Theory, BothDatabases]
    public async Task The_same_role_again_ends_no_session(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        await lead.ChangeRoleAsync(await MembershipAsync(host, world.One, Role.ProgrammeLead), Role.ProgrammeLead);
        host.Time.Advance(OverAMinute);

        Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/people")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task The_last_lead_stays_lead(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var membership = await MembershipAsync(host, world.One, Role.ProgrammeLead);

        var answer = await lead.ChangeRoleAsync(membership, Role.Coordinator);

        Assert.Contains("A programme needs a lead", await answer.WordsAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(Role.ProgrammeLead, (await db.Memberships.SingleAsync(m => m.Id == membership)).Role);
    }

    [Theory, BothDatabases]
    public async Task Two_leads_who_remove_each_other_at_once_leave_one(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (first, second) = (await MembershipAsync(host, world.One, Role.ProgrammeLead), await MembershipAsync(host, world.One, Role.Coordinator));
        await using var db = host.OpenDb();
        await db.Memberships.Where(m => m.Id == second).ExecuteUpdateAsync(m => m.SetProperty(x => x.Role, Role.ProgrammeLead));

        await Task.WhenAll(RemoveAsync(host, world.One, Role.ProgrammeLead, second), RemoveAsync(host, world.One, Role.Coordinator, first));

        Assert.Single(await db.Memberships.Where(m => m.ProgrammeId == world.One.Programme.Id && m.Role == Role.ProgrammeLead).ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task Somebody_removed_is_out_within_a_minute_and_finds_no_programme(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var hand = await host.ClientAs(Role.KitHand, world.One);

        await lead.PostFormAsync($"/people/{await MembershipAsync(host, world.One, Role.KitHand)}", Nothing, "remove");
        host.Time.Advance(OverAMinute);

        Assert.StartsWith("/sign-in", (await hand.GetAsync("/people")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        var back = await host.ClientAs(Role.KitHand, world.One);
        Assert.Contains("Your account is in no programme now.", await back.WordsAsync("/not-yours"), StringComparison.Ordinal);
        Assert.StartsWith("/not-yours", (await back.GetAsync("/people")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Nobody_removes_themself(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var own = await MembershipAsync(host, world.One, Role.ProgrammeLead);
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var outcome = await RemoveAsync(host, world.One, Role.ProgrammeLead, own);

        Assert.IsType<MemberOutcome.Refused>(outcome);
        Assert.DoesNotContain("Remove from the programme", await lead.WordsAsync($"/people/{own}"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_lead_hands_on_a_link_to_a_new_password(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var made = await lead.PostFormAsync($"/people/{await MembershipAsync(host, world.One, Role.KitHand)}", Nothing, "password");
        var link = await (await lead.GetAsync(made.Headers.Location)).LinkToHandOnAsync();

        Assert.Contains($"For {world.One.EmailOf(Role.KitHand)}.", await host.Anonymous().WordsAsync(link!), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_revoked_key_is_gone_and_another_programmes_is_out_of_reach(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        await using var db = host.OpenDb();
        var keys = await db.ApiKeys.AsNoTracking().Where(k => k.Role == ApiKeyRole.Logger).ToListAsync();
        Assert.Contains("Logger: adds readings A001", await lead.WordsAsync("/people"), StringComparison.Ordinal);

        foreach (var key in keys)
        {
            await lead.PostFormAsync("/people", new Dictionary<string, string> { ["Key"] = key.Id.ToString() }, "revoke");
        }

        var revoked = Assert.Single(await db.ApiKeys.Where(k => k.RevokedAt != null).ToListAsync());
        Assert.Equal((world.One.Programme.Id, host.Now), (revoked.ProgrammeId, revoked.RevokedAt!.Value));
        Assert.DoesNotContain("Logger: adds readings", await lead.WordsAsync("/people"), StringComparison.Ordinal);
    }

    private static Task<MemberOutcome> RemoveAsync(PortalHost host, TestProgramme programme, Role by, Guid membership) =>
        host.CallAsync<RemoveMember, MemberOutcome>(remove => remove.HandleAsync(
            new CurrentUser(programme.People[by].Id, programme.Programme.Id, Role.ProgrammeLead, null), membership, CancellationToken.None));

    private static async Task<Guid> MembershipAsync(PortalHost host, TestProgramme programme, Role role)
    {
        await using var db = host.OpenDb();
        var person = programme.People[role].Id;
        return await db.Memberships.Where(m => m.PersonId == person).Select(m => m.Id).SingleAsync();
    }
}
