using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Identity;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>What a person does with the second step of their sign-in, by the portal's own pages.</summary>
public static partial class SecondSteps
{
    /// <summary>Gives the secret, the code that was used up by it, and the ten recovery codes, which are shown once.</summary>
    public static async Task<(string Secret, string Used, IReadOnlyList<string> Codes)> SwitchOnAsync(HttpClient client)
    {
        var secret = Secret().Match(await client.GetStringAsync("/me/sign-in/device")).Groups[1].Value;
        var used = TimeCodes.Of(secret);
        var stranger = await DeviceAsync(client, used, "a guess");
        Assert.Contains("This is not your password.", await stranger.WordsAsync(), StringComparison.Ordinal);
        var wrong = await DeviceAsync(client, TimeCodes.Of(secret, steps: 500), TestWorld.Password);
        Assert.Contains("nothing is switched on", await wrong.WordsAsync(), StringComparison.Ordinal);
        var right = await DeviceAsync(client, used, TestWorld.Password);
        var codes = await CodesAsync(client, right);
        Assert.Equal(10, codes.Count);
        Assert.Contains("The codes are not shown again.", await client.WordsAsync("/me/sign-in/codes"), StringComparison.Ordinal);
        return (secret, used, codes);
    }

    public static async Task<IReadOnlyList<string>> CodesAsync(HttpClient client, HttpResponseMessage sent)
    {
        var shown = await client.GetAsync(sent.Headers.Location);
        Assert.True(shown.Headers.CacheControl!.NoStore);
        return [.. Code().Matches(await shown.Content.ReadAsStringAsync()).Select(m => m.Groups[1].Value)];
    }

    public static Task<HttpResponseMessage> PasswordAsync(HttpClient client, string email) =>
        client.PostFormAsync("/sign-in", new Dictionary<string, string> { ["Input.Email"] = email, ["Input.Password"] = TestWorld.Password }, "sign-in");

    public static Task<HttpResponseMessage> CodeAsync(HttpClient client, string code) =>
        client.PostFormAsync("/sign-in/code", new Dictionary<string, string> { ["Input.Code"] = code }, "code");

    /// <summary>A passkey as it lies in the database; nobody here holds the device that it came from.</summary>
    public static IdentityUserPasskey<Guid> PasskeyOf(Guid person, byte id = 1) => new()
    {
        UserId = person,
        CredentialId = [id],
        Data = new IdentityPasskeyData { PublicKey = [3], Name = $"phone {id}", CreatedAt = TestWorld.Now, AttestationObject = [4], ClientDataJson = [5] },
    };

    private static Task<HttpResponseMessage> DeviceAsync(HttpClient client, string code, string password) =>
        client.PostFormAsync("/me/sign-in/device", new Dictionary<string, string> { ["Input.Code"] = code, ["Input.Password"] = password }, "device");

    [GeneratedRegex("<code id=\"secret\">([a-z2-7 ]+)</code>")]
    private static partial Regex Secret();

    [GeneratedRegex("<li><code>([^<]+)</code></li>")]
    private static partial Regex Code();
}
