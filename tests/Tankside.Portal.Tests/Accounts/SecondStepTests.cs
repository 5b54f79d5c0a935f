using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>A code of one's own device after the password, and the ways out when it is lost.</summary>
public class SecondStepTests
{
    /// <summary>RFC 6238, appendix B, the rows of SHA-1.</summary>
    [Theory]
    [InlineData(59, "94287082")]
    [InlineData(1111111109, "07081804")]
    [InlineData(1111111111, "14050471")]
    [InlineData(1234567890, "89005924")]
    [InlineData(2000000000, "69279037")]
    [InlineData(20000000000, "65353130")]
    public void The_device_of_these_tests_makes_the_codes_of_the_standard(long seconds, string code) =>
        Assert.Equal(code, TimeCodes.At(Encoding.ASCII.GetBytes("12345678901234567890"), seconds / 30, 8));

    /// <summary>RFC 4648, 10.</summary>
    [Fact]
    public void The_device_reads_a_secret_as_it_is_written() => Assert.Equal("foobar", Encoding.ASCII.GetString(TimeCodes.Bytes("mzxw 6ytb oi")));

    [Theory, BothDatabases]
    public async Task Once_it_is_on_the_password_alone_opens_nothing_and_each_code_works_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var (secret, first, codes) = await SecondSteps.SwitchOnAsync(lead);

        var phone = host.Anonymous();
        var asked = await SecondSteps.PasswordAsync(phone, world.One.EmailOf(Role.ProgrammeLead));
        var closed = await phone.GetAsync("/people");
        var old = await SecondSteps.CodeAsync(phone, TimeCodes.Of(secret, steps: -20));
        var used = await SecondSteps.CodeAsync(phone, first);
        var let = await SecondSteps.CodeAsync(phone, TimeCodes.Of(secret, steps: 1));

        Assert.StartsWith("/sign-in/code", asked.Next(), StringComparison.Ordinal);
        Assert.StartsWith("/sign-in?", closed.Next(), StringComparison.Ordinal);
        Assert.Contains("This code does not fit.", await old.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("This code does not fit.", await used.WordsAsync(), StringComparison.Ordinal);
        Assert.Equal("/", let.Next());
        Assert.Equal(HttpStatusCode.OK, (await phone.GetAsync("/people")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/people")).StatusCode);

        var lost = host.Anonymous();
        await SecondSteps.PasswordAsync(lost, world.One.EmailOf(Role.ProgrammeLead));
        Assert.Equal("/", (await SecondSteps.CodeAsync(lost, codes[3].ToLowerInvariant().Replace("-", " ", StringComparison.Ordinal))).Next());
        var again = host.Anonymous();
        await SecondSteps.PasswordAsync(again, world.One.EmailOf(Role.ProgrammeLead));
        Assert.Contains("This code does not fit.", await (await SecondSteps.CodeAsync(again, codes[3])).WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("You have 9 recovery codes left", await lost.WordsAsync("/me/sign-in"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Eight_wrong_codes_let_the_account_rest_even_for_the_right_one(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var (secret, _, codes) = await SecondSteps.SwitchOnAsync(lead);
        var guesser = host.Anonymous();
        await SecondSteps.PasswordAsync(guesser, world.One.EmailOf(Role.ProgrammeLead));

        foreach (var guess in Enumerable.Range(0, 8))
        {
            await SecondSteps.CodeAsync(guesser, guess % 2 == 0 ? TimeCodes.Of(secret, steps: 500 + guess) : "AAAAA-AAAAA");
        }

        Assert.Contains("This code does not fit.", await (await SecondSteps.CodeAsync(guesser, TimeCodes.Of(secret, steps: 1))).WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("This code does not fit.", await (await SecondSteps.CodeAsync(guesser, codes[0])).WordsAsync(), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_lead_switches_it_off_for_a_member_which_ends_their_sessions_and_is_written_down(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (lead, member) = (await host.ClientAs(Role.ProgrammeLead, world.One), await host.ClientAs(Role.KitHand, world.One));
        await SecondSteps.SwitchOnAsync(member);
        var person = world.One.People[Role.KitHand];
        await using var db = host.OpenDb();
        var place = await db.Memberships.Where(m => m.PersonId == person.Id).Select(m => m.Id).SingleAsync();

        var done = await lead.PostFormAsync($"/people/{place}", new Dictionary<string, string>(), "step");
        host.Time.Advance(TimeSpan.FromSeconds(61));

        Assert.Contains("is off. Their password is enough", await (await lead.GetAsync(done.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        Assert.StartsWith("/sign-in?", (await member.GetAsync("/me")).Next(), StringComparison.Ordinal);
        Assert.Equal("/", (await SecondSteps.PasswordAsync(host.Anonymous(), person.Email!)).Next());
        Assert.Equal(0, await db.UserTokens.CountAsync(t => t.UserId == person.Id));
        var line = await db.Changes.Where(c => c.What == "Person" && c.About == person.Id).OrderByDescending(c => c.Id).FirstAsync();
        Assert.Equal((world.One.People[Role.ProgrammeLead].Id, "True", "False"), (line.By!.Value, line.Read().Single().Before, line.Read().Single().After));
    }

    [Theory, BothDatabases]
    public async Task Switching_it_off_and_new_codes_ask_for_the_password(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var (_, _, codes) = await SecondSteps.SwitchOnAsync(lead);

        var guessed = await lead.PostFormAsync("/me/sign-in", new Dictionary<string, string> { ["Input.Password"] = "a guess", ["Deed"] = "off" }, "steps");
        var renewed = await lead.PostFormAsync("/me/sign-in", new Dictionary<string, string> { ["Input.Password"] = TestWorld.Password, ["Deed"] = "codes" }, "steps");
        var fresh = await SecondSteps.CodesAsync(lead, renewed);
        var off = await lead.PostFormAsync("/me/sign-in", new Dictionary<string, string> { ["Input.Password"] = TestWorld.Password, ["Deed"] = "off" }, "steps");

        Assert.Contains("This is not your password.", await guessed.WordsAsync(), StringComparison.Ordinal);
        Assert.Empty(codes.Intersect(fresh));
        Assert.Contains("The second step is off.", await (await lead.GetAsync(off.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        Assert.Equal("/", (await SecondSteps.PasswordAsync(host.Anonymous(), world.One.EmailOf(Role.ProgrammeLead))).Next());
    }
}
