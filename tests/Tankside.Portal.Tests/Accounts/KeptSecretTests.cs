using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>What lets somebody in by a second step is not readable in the database; what was kept readable before goes on working.</summary>
public class KeptSecretTests
{
    private const string OldSecret = "JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP", OldCodes = "BCD23-FGH45;JKM67-NPQ89;RTV23-WXY45";

    [Theory, BothDatabases]
    public async Task Neither_the_secret_nor_a_recovery_code_stands_in_the_database(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        var (secret, used, codes) = await SecondSteps.SwitchOnAsync(await host.ClientAs(Role.Coordinator, world.One));

        await using var db = host.OpenDb();
        var kept = await db.UserTokens.Select(t => t.Value!).ToListAsync();
        var plain = TwoSteps.Plain(secret).ToUpperInvariant();
        Assert.Equal(3, kept.Count);
        Assert.All(kept, value => Assert.DoesNotContain(plain, value, StringComparison.OrdinalIgnoreCase));
        Assert.All(kept, value => Assert.DoesNotContain(used, value, StringComparison.Ordinal));
        Assert.All(codes, code => Assert.All(kept, value => Assert.DoesNotContain(TwoSteps.Plain(code), TwoSteps.Plain(value), StringComparison.OrdinalIgnoreCase)));
    }

    [Theory, BothDatabases]
    public async Task An_earlier_readable_secret_lets_in_and_is_encrypted_then(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var person = await OldAsync(host, world);

        var wrong = await SignInAsync(host, world, TimeCodes.Of(OldSecret, steps: 500));
        var first = await SignInAsync(host, world, TimeCodes.Of(OldSecret));
        var kept = await KeptAsync(host, person, AccountStore.SecretName);
        var second = await SignInAsync(host, world, TimeCodes.Of(OldSecret, steps: 1));

        Assert.Contains("This code does not fit.", await wrong.WordsAsync(), StringComparison.Ordinal);
        Assert.Equal(("/", "/"), (first.Next(), second.Next()));
        Assert.True(StepSecrets.IsProtected(kept));
        Assert.DoesNotContain(OldSecret, kept, StringComparison.Ordinal);
        Assert.Equal(kept, await KeptAsync(host, person, AccountStore.SecretName));
    }

    [Theory, BothDatabases]
    public async Task Earlier_readable_codes_let_in_once_each_and_are_hashed_with_the_first(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var person = await OldAsync(host, world);

        var first = await SignInAsync(host, world, "jkm67 npq89");
        var kept = await KeptAsync(host, person, AccountStore.CodesName);
        var again = await SignInAsync(host, world, "JKM67-NPQ89");
        var other = await SignInAsync(host, world, "BCD23-FGH45");

        Assert.Equal(("/", "/"), (first.Next(), other.Next()));
        Assert.Contains("This code does not fit.", await again.WordsAsync(), StringComparison.Ordinal);
        Assert.True(HashedCodes.AreHashed(kept));
        Assert.DoesNotContain("BCD23", kept, StringComparison.Ordinal);
        Assert.Equal(1, HashedCodes.Count(await KeptAsync(host, person, AccountStore.CodesName)));
    }

    [Theory, BothDatabases]
    public async Task A_secret_that_cannot_be_read_any_more_opens_nothing_but_a_recovery_code_does(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (secret, used, codes) = await SecondSteps.SwitchOnAsync(await host.ClientAs(Role.Coordinator, world.One));
        Assert.NotEqual(used, TimeCodes.Of(secret, steps: 1));
        await using (var db = host.OpenDb())
        {
            // As it is when somebody puts the row of another person in its place, or when the keys are gone.
            var other = await host.CallAsync<StepSecrets, string>(s => Task.FromResult(s.Protect(world.One.People[Role.Teacher].Id, OldSecret)));
            await db.UserTokens.Where(t => t.Name == AccountStore.SecretName).ExecuteUpdateAsync(set => set.SetProperty(t => t.Value, other));
        }

        var browser = host.Anonymous();
        var password = await SecondSteps.PasswordAsync(browser, world.One.EmailOf(Role.Coordinator));
        var closed = await browser.GetAsync("/me");
        var own = await SecondSteps.CodeAsync(browser, TimeCodes.Of(secret, steps: 1));
        var others = await SecondSteps.CodeAsync(browser, TimeCodes.Of(OldSecret, steps: 1));
        var recovered = await SecondSteps.CodeAsync(browser, codes[0]);

        Assert.StartsWith("/sign-in/code", password.Next(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Found, closed.StatusCode);
        Assert.Contains("This code does not fit.", await own.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("This code does not fit.", await others.WordsAsync(), StringComparison.Ordinal);
        Assert.Equal("/", recovered.Next());
    }

    [Fact]
    public void Ten_hashed_codes_fit_their_column_and_each_is_taken_out_once()
    {
        var codes = Enumerable.Range(0, 10).Select(i => $"BCD2{i}-FGH45").ToList();
        var (kept, again) = (HashedCodes.Make(codes, 210_000), HashedCodes.Make(codes, 10));

        Assert.InRange(kept.Length, 200, 400);
        Assert.Empty(kept.Split(' ').Skip(2).Intersect(again.Split(' ')));
        var left = HashedCodes.Without(again, codes[3])!;
        Assert.Equal((10, 9), (HashedCodes.Count(again), HashedCodes.Count(left)));
        Assert.Null(HashedCodes.Without(left, codes[3]));
        Assert.NotNull(HashedCodes.Without(left, codes[4]));
    }

    /// <summary>A coordinator with a second step as the program before kept it.</summary>
    private static async Task<Guid> OldAsync(PortalHost host, TestWorld world)
    {
        var person = world.One.People[Role.Coordinator].Id;
        await host.SeedAsync(db => db.AddRange(Token(AccountStore.SecretName, OldSecret), Token(AccountStore.CodesName, OldCodes)));
        await using var db = host.OpenDb();
        await db.Users.Where(p => p.Id == person).ExecuteUpdateAsync(set => set.SetProperty(p => p.TwoFactorEnabled, true));
        return person;

        Microsoft.AspNetCore.Identity.IdentityUserToken<Guid> Token(string name, string value) => new() { UserId = person, LoginProvider = AccountStore.Keeper, Name = name, Value = value };
    }

    private static async Task<HttpResponseMessage> SignInAsync(PortalHost host, TestWorld world, string code)
    {
        var browser = host.Anonymous();
        await SecondSteps.PasswordAsync(browser, world.One.EmailOf(Role.Coordinator));
        return await SecondSteps.CodeAsync(browser, code);
    }

    private static async Task<string> KeptAsync(PortalHost host, Guid person, string name)
    {
        await using var db = host.OpenDb();
        return (await db.UserTokens.SingleAsync(t => t.UserId == person && t.Name == name)).Value!;
    }
}
