using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>A lead adds a passkey, comes back by it, and takes it away. The browser's own made-up authenticator stands for the finger.</summary>
public class PasskeyStory
{
    [BrowserFact]
    public async Task Added_used_removed_and_refused_after()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync(width: 360);
        await WithAuthenticatorAsync(page);
        await page.GotoAsync("/sign-in");
        // A passkey belongs to a name, never to a number.
        var place = new UriBuilder(page.Url) { Host = "localhost", Path = "/" }.Uri;
        await page.GotoAsync($"{place}sign-in");
        await page.GetByLabel("Email").FillAsync(host.World.One.EmailOf(Role.ProgrammeLead));
        await page.GetByLabel("Password").FillAsync(TestWorld.Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();
        await page.ArrivesAtAsync("^(?!.*/sign-in)");
        await page.GotoAsync($"{place}me/sign-in");
        await page.GetByLabel("What do you call it?").FillAsync("my phone");
        await page.GetByLabel("Your password", new() { Exact = true }).FillAsync("not the password");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a passkey" }).ClickAsync();
        await Assertions.Expect(page.GetByText("This is not your password.")).ToBeVisibleAsync();
        await page.GetByLabel("Your password", new() { Exact = true }).FillAsync(TestWorld.Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a passkey" }).ClickAsync();
        await Assertions.Expect(page.Locator("#notice")).ToContainTextAsync("The passkey is added.");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("You sign in with a passkey, or with your password alone.");
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= window.innerWidth"), "wider than the phone");

        await SignOutAsync(page);
        await ByPasskeyAsync(page, place);
        await page.ArrivesAtAsync("^(?!.*/sign-in)");
        await page.GotoAsync($"{place}me/sign-in");
        await Assertions.Expect(page.GetByRole(AriaRole.Row, new() { Name = "my phone" })).Not.ToContainTextAsync("not yet");

        await page.GetByLabel("Your password, to remove one").FillAsync(TestWorld.Password);
        await page.Keyboard.PressAsync("Enter");
        await page.GetByRole(AriaRole.Button, new() { Name = "Remove the passkey my phone" }).ClickAsync();
        await Assertions.Expect(page.Locator("#notice")).ToContainTextAsync("The passkey is removed");
        await SignOutAsync(page);
        await ByPasskeyAsync(page, place);
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("This passkey lets nobody in.");

        await using var db = host.Portal.OpenDb();
        Assert.Equal(0, await db.Passkeys.CountAsync());
    }

    private static async Task ByPasskeyAsync(IPage page, Uri place)
    {
        await page.GotoAsync($"{place}sign-in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in with a passkey" }).ClickAsync();
    }

    private static async Task SignOutAsync(IPage page)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).ClickAsync();
        await page.ArrivesAtAsync("/sign-in$");
    }

    private static async Task WithAuthenticatorAsync(IPage page)
    {
        var browser = await page.Context.NewCDPSessionAsync(page);
        await browser.SendAsync("WebAuthn.enable");
        await browser.SendAsync("WebAuthn.addVirtualAuthenticator", new Dictionary<string, object>
        {
            ["options"] = new Dictionary<string, object>
            {
                ["protocol"] = "ctap2",
                ["transport"] = "internal",
                ["hasResidentKey"] = true,
                ["hasUserVerification"] = true,
                ["isUserVerified"] = true,
                ["automaticPresenceSimulation"] = true,
            },
        });
    }
}
