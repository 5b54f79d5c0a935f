using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>A programme asks a second step of its leads, of coordinators too, or of everybody.</summary>
public class DemandedStepTests
{
    private static readonly TimeSpan OverAMinute = TimeSpan.FromSeconds(61);

    [Theory, BothDatabases]
    public async Task Who_owes_it_gets_the_page_that_sets_it_up_and_afterwards_everything(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (lead, teacher) = (await host.ClientAs(Role.ProgrammeLead, world.One), await host.ClientAs(Role.Teacher, world.One));
        var opened = await teacher.OpenFormAsync("/me", new Dictionary<string, string> { ["Input.Name"] = "Somebody Else" }, "me");
        await SecondSteps.SwitchOnAsync(lead);
        await DemandAsync(lead, StepDemand.Everybody);
        host.Time.Advance(OverAMinute);

        var sent = await opened();
        foreach (var address in new[] { "/", "/tanks", "/me", "/me/data", "/me/data.json", "/me/programme", $"/tanks/{world.One.Tanks[0].Code}" })
        {
            Assert.Equal("/me/sign-in", (await teacher.GetAsync(address)).Next());
        }

        Assert.Equal("/me/sign-in", sent.Next());
        var page = await teacher.WordsAsync("/me/sign-in");
        Assert.Contains("One thing before you go on: a second step.", page, StringComparison.Ordinal);
        Assert.Contains("Reed Valley asks a second step of you", page, StringComparison.Ordinal);
        Assert.Contains("What you have just sent was not saved", page, StringComparison.Ordinal);
        await using (var db = host.OpenDb())
        {
            Assert.False(await db.Users.AnyAsync(p => p.Name == "Somebody Else"));
        }

        await SecondSteps.SwitchOnAsync(teacher);
        Assert.Equal(HttpStatusCode.OK, (await teacher.GetAsync("/tanks")).StatusCode);
        Assert.Contains("You sign in with your password and a code.", await teacher.WordsAsync("/me/sign-in"), StringComparison.Ordinal);
        host.Time.Advance(OverAMinute);
        Assert.Equal(HttpStatusCode.OK, (await teacher.GetAsync("/tanks")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task Neither_classes_nor_keys_nor_the_way_out_are_touched(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await SetAsync(host, world.One, StepDemand.Everybody);
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        await using var db = host.OpenDb();
        var label = await db.RoomCodes.Where(c => c.TankId == world.One.Tanks[0].Id).Select(c => c.Code).FirstAsync();

        Assert.Equal("/me/sign-in", (await coordinator.GetAsync("/round")).Next());
        Assert.Equal(HttpStatusCode.OK, (await host.Anonymous().GetAsync($"/t/{label}")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await coordinator.GetAsync($"/t/{label}")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await host.ClientWithKey(world.One.CoordinatorKey).GetAsync("/api/v1/tanks")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await coordinator.GetAsync("/bench")).StatusCode);
        Assert.Equal("/sign-in", (await coordinator.PostFormAsync("/me/sign-in", new Dictionary<string, string>())).Next());
        Assert.StartsWith("/sign-in?", (await coordinator.GetAsync("/me/sign-in")).Next(), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task It_is_asked_of_those_whom_the_programme_names(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var asked = new Dictionary<StepDemand, Role[]>
        {
            [StepDemand.Leads] = [Role.ProgrammeLead],
            [StepDemand.LeadsAndCoordinators] = [Role.ProgrammeLead, Role.Coordinator],
            [StepDemand.Everybody] = Enum.GetValues<Role>(),
        };
        foreach (var (demand, roles) in asked)
        {
            await SetAsync(host, world.One, demand);
            foreach (var role in Enum.GetValues<Role>())
            {
                var next = (await (await host.ClientAs(role, world.One)).GetAsync("/me")).Next();
                Assert.Equal((demand, role, roles.Contains(role) ? "/me/sign-in" : "nowhere, 200"), (demand, role, next));
            }
        }

        Assert.Equal(HttpStatusCode.OK, (await (await host.ClientAs(Role.ProgrammeLead, world.Two)).GetAsync("/people")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task A_lead_without_one_cannot_ask_it_of_anybody(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var refused = await DemandAsync(lead, StepDemand.Leads);

        Assert.Contains("You have no second step yourself", await refused.WordsAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(StepDemand.Nobody, (await db.Programmes.SingleAsync(p => p.Id == world.One.Programme.Id)).SecondStepFor);
        await host.SeedAsync(d => d.Add(SecondSteps.PasskeyOf(world.One.People[Role.ProgrammeLead].Id)));
        var saved = await DemandAsync(lead, StepDemand.LeadsAndCoordinators);
        Assert.Contains("second step for programme leads and coordinators", await (await lead.GetAsync(saved.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        Assert.Contains("who has to sign in in two steps: Nobody → LeadsAndCoordinators", await lead.WordsAsync("/changes"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_last_one_is_not_taken_away_while_it_is_asked(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var person = world.One.People[Role.Coordinator];
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        await SecondSteps.SwitchOnAsync(coordinator);
        await SetAsync(host, world.One, StepDemand.Everybody);
        var off = new Dictionary<string, string> { ["Input.Password"] = TestWorld.Password, ["Deed"] = "off" };

        var only = await coordinator.PostFormAsync("/me/sign-in", off, "steps");
        await host.SeedAsync(d => d.Add(SecondSteps.PasskeyOf(person.Id)));
        var one = await coordinator.PostFormAsync("/me/sign-in", off, "steps");
        var told = await (await coordinator.GetAsync(one.Headers.Location)).NoticeAsync();
        var last = await RemovePasskeyAsync(coordinator);

        Assert.Contains("this is your only one", await only.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("The second step is off.", told, StringComparison.Ordinal);
        Assert.Contains("this passkey is your only one", last, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal((1, false), (await db.Passkeys.CountAsync(p => p.UserId == person.Id), (await db.Users.SingleAsync(p => p.Id == person.Id)).TwoFactorEnabled));
    }

    [Theory, BothDatabases]
    public async Task The_password_alone_does_not_do_for_somebody_with_a_passkey_until_a_lead_helps(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (lead, person) = (await host.ClientAs(Role.ProgrammeLead, world.One), world.One.People[Role.KitHand]);
        await SecondSteps.SwitchOnAsync(lead);
        await host.SeedAsync(d => d.Add(SecondSteps.PasskeyOf(person.Id)));
        await SetAsync(host, world.One, StepDemand.Everybody);
        await using var db = host.OpenDb();
        var place = await db.Memberships.Where(m => m.PersonId == person.Id).Select(m => m.Id).SingleAsync();

        var kitHand = host.Anonymous();
        var alone = await SecondSteps.PasswordAsync(kitHand, person.Email!);
        var people = await lead.WordsAsync("/people");
        await lead.PostFormAsync($"/people/{place}", new Dictionary<string, string>(), "step");
        var helped = await SecondSteps.PasswordAsync(kitHand, person.Email!);

        Assert.Contains("Your password fits.", await alone.WordsAsync(), StringComparison.Ordinal);
        Assert.Equal("/", helped.Next());
        Assert.Equal("/me/sign-in", (await kitHand.GetAsync("/kit")).Next());
        Assert.Equal(0, await db.Passkeys.CountAsync());
        Assert.Matches($"kit hand passkey {person.Email}", people);
        Assert.Matches($"programme lead code {world.One.EmailOf(Role.ProgrammeLead)}", people);
        Assert.Matches($"coordinator not yet; asked at sign-in {world.One.EmailOf(Role.Coordinator)}", people);
    }

    [Theory, BothDatabases]
    public async Task The_made_up_people_of_the_demo_owe_none(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using (var db = host.OpenDb())
        {
            await db.Users.ExecuteUpdateAsync(set => set.SetProperty(p => p.IsDemo, true));
        }

        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var saved = await DemandAsync(lead, StepDemand.Everybody);
        host.Time.Advance(OverAMinute);

        Assert.Contains("second step for everybody who signs in", await (await lead.GetAsync(saved.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/people")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await (await host.ClientAs(Role.Teacher, world.One)).GetAsync("/tanks")).StatusCode);
    }

    private static Task<HttpResponseMessage> DemandAsync(HttpClient lead, StepDemand demand) =>
        lead.PostFormAsync("/settings/programme", new Dictionary<string, string> { ["Input.SecondStepFor"] = demand.ToString() }, "programme");

    private static async Task SetAsync(PortalHost host, TestProgramme programme, StepDemand demand)
    {
        await using var db = host.OpenDb();
        await db.Programmes.Where(p => p.Id == programme.Programme.Id).ExecuteUpdateAsync(set => set.SetProperty(p => p.SecondStepFor, demand));
    }

    /// <summary>What the page says to it.</summary>
    private static async Task<string?> RemovePasskeyAsync(HttpClient client)
    {
        var sent = await client.PostFormAsync("/me/sign-in", new Dictionary<string, string> { ["Passkey"] = "AQ", ["RemovePassword"] = TestWorld.Password }, "remove");
        return sent.Headers.Location is null ? await sent.WordsAsync() : await (await client.GetAsync(sent.Headers.Location)).NoticeAsync();
    }
}
