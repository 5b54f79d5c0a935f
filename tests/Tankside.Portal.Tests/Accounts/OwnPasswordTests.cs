using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>A password changed with the present one, and what becomes of passkeys.</summary>
public class OwnPasswordTests
{
    private const string Fresh = "button-up in the middle of march";

    [Theory, BothDatabases]
    public async Task A_password_is_changed_with_the_present_one_which_ends_the_other_sessions(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (mine, elsewhere) = (await host.ClientAs(Role.Coordinator, world.One), await host.ClientAs(Role.Coordinator, world.One));

        var guessed = await ChangeAsync(mine, "a guess at it all", Fresh, Fresh);
        var shorter = await ChangeAsync(mine, TestWorld.Password, "short", "short");
        var differs = await ChangeAsync(mine, TestWorld.Password, Fresh, Fresh + "!");
        var guessable = await ChangeAsync(mine, TestWorld.Password, "passwordpassword", "passwordpassword");
        Assert.Equal("/", (await SecondSteps.PasswordAsync(host.Anonymous(), world.One.EmailOf(Role.Coordinator))).Next());
        var changed = await ChangeAsync(mine, TestWorld.Password, Fresh, Fresh);
        host.Time.Advance(TimeSpan.FromSeconds(61));

        Assert.Contains("This is not your password.", await guessed.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("12 to 200 characters, please.", await shorter.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("The two passwords differ.", await differs.WordsAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, guessable.StatusCode);
        Assert.Contains("Your new password is set.", await (await mine.GetAsync(changed.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        Assert.Contains("Here and nowhere else.", await mine.WordsAsync("/me/sign-in"), StringComparison.Ordinal);
        Assert.StartsWith("/sign-in?", (await elsewhere.GetAsync("/me")).Next(), StringComparison.Ordinal);
        await host.Anonymous().SignInAsync(world.One.EmailOf(Role.Coordinator), Fresh);
        await Assert.ThrowsAsync<InvalidOperationException>(() => host.Anonymous().SignInAsync(world.One.EmailOf(Role.Coordinator), TestWorld.Password));
    }

    [Theory, BothDatabases]
    public async Task A_new_password_points_at_passkeys_which_it_leaves_as_they_are(DatabaseKind kind)
    {
        var mail = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, mail.Settings);
        await using var _ = host;
        var person = world.One.People[Role.Coordinator];
        await host.SeedAsync(db => db.AddRange(SecondSteps.PasskeyOf(person.Id), SecondSteps.PasskeyOf(person.Id, 2)));
        var mine = await host.ClientAs(Role.Coordinator, world.One);

        var changed = await ChangeAsync(mine, TestWorld.Password, Fresh, Fresh);
        var told = await (await mine.GetAsync(changed.Headers.Location)).NoticeAsync();
        await host.Anonymous().PostFormAsync("/forgot-password", new Dictionary<string, string> { ["Input.Email"] = person.Email! });
        var browser = host.Anonymous();
        var set = await browser.PostFormAsync(MailSink.PathIn(await mail.NextAsync()), new Dictionary<string, string> { ["Input.Password"] = TestWorld.Password, ["Input.Again"] = TestWorld.Password }, "reset");

        Assert.Contains("2 passkeys let in as before", told, StringComparison.Ordinal);
        Assert.Equal("/sign-in?to=%2Fme%2Fsign-in", set.Next());
        Assert.Contains("2 passkeys let in as before", await (await browser.GetAsync(set.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(2, await db.Passkeys.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task Removing_a_passkey_asks_for_the_password(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(d => d.Add(SecondSteps.PasskeyOf(world.One.People[Role.Coordinator].Id)));
        var mine = await host.ClientAs(Role.Coordinator, world.One);
        await using var db = host.OpenDb();

        var guessed = await mine.PostFormAsync("/me/sign-in", new Dictionary<string, string> { ["Passkey"] = "AQ", ["RemovePassword"] = "a guess" }, "remove");
        Assert.Contains("This is not your password.", await guessed.WordsAsync(), StringComparison.Ordinal);
        Assert.Equal(1, await db.Passkeys.CountAsync());
        var removed = await mine.PostFormAsync("/me/sign-in", new Dictionary<string, string> { ["Passkey"] = "AQ", ["RemovePassword"] = TestWorld.Password }, "remove");

        Assert.Contains("The passkey is removed", await (await mine.GetAsync(removed.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        Assert.Equal(0, await db.Passkeys.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task The_password_of_a_made_up_person_stays_and_their_sessions_are_nobodys(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using var db = host.OpenDb();
        await db.Users.ExecuteUpdateAsync(set => set.SetProperty(p => p.IsDemo, true));
        var (mine, other) = (await host.ClientAs(Role.Coordinator, world.One), await host.ClientAs(Role.Coordinator, world.One));

        var page = await mine.GetStringAsync("/me/sign-in");
        var changed = await mine.PostSeenAsync("/me/sign-in", page, "password", new Dictionary<string, string> { ["PasswordNow"] = TestWorld.Password, ["PasswordNext"] = Fresh, ["PasswordAgain"] = Fresh });
        var ended = await mine.PostSeenAsync("/me/sign-in", page, "sessions", new Dictionary<string, string> { ["Session"] = "others", ["SessionsPassword"] = TestWorld.Password });

        Assert.Contains("so its password stays as it is.", await changed.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("so its sessions are not shown.", await ended.WordsAsync(), StringComparison.Ordinal);
        host.Time.Advance(TimeSpan.FromSeconds(61));
        Assert.Equal(HttpStatusCode.OK, (await other.GetAsync("/me")).StatusCode);
        await host.Anonymous().SignInAsync(world.One.EmailOf(Role.Coordinator), TestWorld.Password);
    }

    private static Task<HttpResponseMessage> ChangeAsync(HttpClient client, string now, string next, string again) =>
        client.PostFormAsync("/me/sign-in", new Dictionary<string, string> { ["PasswordNow"] = now, ["PasswordNext"] = next, ["PasswordAgain"] = again }, "password");
}
