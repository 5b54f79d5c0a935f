using System.Net;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Hosting.Internal;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Storage.People;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

public class SignInTests
{
    private const string Wrong = "not the password", Nobody = "nobody@example.test";

    [Theory, BothDatabases]
    public async Task Signing_in_opens_the_pages_and_signing_out_closes_them(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/people")).StatusCode);

        var left = await lead.PostFormAsync("/people", new Dictionary<string, string>());

        Assert.Equal("/sign-in", left.Headers.Location!.OriginalString);
        Assert.Equal("/sign-in?to=%2Fpeople", (await lead.GetAsync("/people")).Headers.Location!.PathAndQuery);
    }

    [Theory, BothDatabases]
    public async Task Signing_out_needs_the_pages_own_token(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var forged = await lead.PostAsync("/sign-out", new FormUrlEncodedContent([]));

        Assert.Equal(HttpStatusCode.BadRequest, forged.StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/people")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task Every_refusal_reads_the_same(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Services = InProduction });
        await using var _ = host;
        var (demo, locked) = (world.One.People[Role.KitHand], world.One.People[Role.Coordinator]);
        await SetAsync(host, demo.Id, p => p.IsDemo = true);
        await SetAsync(host, locked.Id, p => p.LockoutEnd = DateTimeOffset.MaxValue);

        var unknown = await RefusalAsync(host, Nobody, TestWorld.Password);

        Assert.NotNull(unknown);
        Assert.Equal(unknown, await RefusalAsync(host, world.One.EmailOf(Role.Teacher), Wrong));
        Assert.Equal(unknown, await RefusalAsync(host, demo.Email!, TestWorld.Password));
        Assert.Equal(unknown, await RefusalAsync(host, locked.Email!, TestWorld.Password));
    }

    [Theory, BothDatabases]
    public async Task Every_refusal_costs_one_look_at_a_password(DatabaseKind kind)
    {
        var hasher = new CountingHasher();
        var (host, world) = await PortalHost.CreateWithWorldAsync(
            kind, new PortalHostSettings { Services = s => s.Replace(ServiceDescriptor.Singleton<IPasswordHasher<Person>>(hasher)) });
        await using var _ = host;
        var locked = world.One.People[Role.Coordinator];
        await SetAsync(host, locked.Id, p => p.LockoutEnd = DateTimeOffset.MaxValue);

        foreach (var email in new[] { Nobody, world.One.EmailOf(Role.Teacher), locked.Email! })
        {
            hasher.Looks = 0;
            await RefusalAsync(host, email, Wrong);
            Assert.Equal(1, hasher.Looks);
        }
    }

    [Theory, BothDatabases]
    public async Task After_eight_wrong_tries_the_right_password_is_refused_too(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var email = world.One.EmailOf(Role.Teacher);
        for (var tries = 0; tries < 7; tries++)
        {
            await RefusalAsync(host, email, Wrong);
        }

        await using (var db = host.OpenDb())
        {
            Assert.Null((await db.Users.SingleAsync(p => p.Email == email)).LockoutEnd);
        }

        await RefusalAsync(host, email, Wrong);

        Assert.NotNull(await RefusalAsync(host, email, TestWorld.Password));
    }

    [Theory]
    [InlineData("/round", "/round")]
    [InlineData("/tanks/A001?day=3", "/tanks/A001?day=3")]
    [InlineData("//elsewhere.test", "/")]
    [InlineData("/\\elsewhere.test", "/")]
    [InlineData("/\t/elsewhere.test", "/")]
    [InlineData("https://elsewhere.test/", "/")]
    [InlineData("javascript:alert(1)", "/")]
    [InlineData("", "/")]
    [InlineData(null, "/")]
    public void Only_a_page_of_our_own_is_gone_back_to(string? to, string goes) => Assert.Equal(goes, LocalAddress.OrHome(to));

    [Theory]
    [InlineData("/people", "/people")]
    [InlineData("//elsewhere.test/people", "/")]
    public async Task Signing_in_goes_back_to_where_it_was_asked(string to, string goes)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await host.Anonymous().PostFormAsync($"/sign-in?to={Uri.EscapeDataString(to)}", Fields(world.One.EmailOf(Role.ProgrammeLead), TestWorld.Password));

        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        Assert.Equal(goes, answer.Headers.Location!.IsAbsoluteUri ? answer.Headers.Location.PathAndQuery : answer.Headers.Location.OriginalString);
        Assert.True(!answer.Headers.Location.IsAbsoluteUri || answer.Headers.Location.Host == "localhost");
    }

    [Fact]
    public async Task The_session_is_closed_to_scripts_and_to_other_sites()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await host.Anonymous().PostFormAsync("/sign-in", Fields(world.One.EmailOf(Role.Teacher), TestWorld.Password));

        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), c => c.StartsWith("tankside=", StringComparison.Ordinal));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=lax", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("expires", cookie, StringComparison.OrdinalIgnoreCase);
    }

    [Theory, BothDatabases]
    public async Task A_page_for_another_role_says_so(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var sent = await teacher.GetAsync("/people");
        var answer = await teacher.GetAsync(sent.Headers.Location);

        Assert.StartsWith("/not-yours", sent.Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Contains("You are here as teacher.", await answer.WordsAsync(), StringComparison.Ordinal);
    }

    private static void InProduction(IServiceCollection services) =>
        services.AddSingleton<IHostEnvironment>(new HostingEnvironment { EnvironmentName = Environments.Production });

    private static Dictionary<string, string> Fields(string email, string password) =>
        new() { ["Input.Email"] = email, ["Input.Password"] = password };

    /// <summary>What the sign-in page says to a try; null when it lets in.</summary>
    private static async Task<string?> RefusalAsync(PortalHost host, string email, string password)
    {
        var answer = await host.Anonymous().PostFormAsync("/sign-in", Fields(email, password));
        return answer.StatusCode == HttpStatusCode.OK ? await answer.NoticeAsync() : null;
    }

    private static async Task SetAsync(PortalHost host, Guid personId, Action<Person> set)
    {
        await using var db = host.OpenDb();
        set(await db.Users.SingleAsync(p => p.Id == personId));
        await db.SaveChangesAsync();
    }

    private sealed class CountingHasher : IPasswordHasher<Person>
    {
        private readonly PasswordHasher<Person> inner = new();

        public int Looks { get; set; }

        public string HashPassword(Person user, string password) => inner.HashPassword(user, password);

        public PasswordVerificationResult VerifyHashedPassword(Person user, string hashedPassword, string providedPassword)
        {
            Looks++;
            return inner.VerifyHashedPassword(user, hashedPassword, providedPassword);
        }
    }
}
