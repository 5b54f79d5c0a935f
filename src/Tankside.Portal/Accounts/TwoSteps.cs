using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>The second step of a person's sign-in: a code that a device makes from a secret and the clock (RFC 6238).</summary>
public sealed class TwoSteps(UserManager<Person> people, StepSecrets secrets, HatcheryDb db)
{
    public const int RecoveryCodes = 10;

    /// <summary>
    /// The secret that is to be entered into the device; made when there is none, and not by the framework's way of making it anew, which would
    /// end the session that asks. It counts once a code of it was given.
    /// </summary>
    public async Task<string> SecretAsync(Person person)
    {
        if (await people.GetAuthenticatorKeyAsync(person) is { Length: > 0 } known)
        {
            return known;
        }

        var secret = people.GenerateNewAuthenticatorKey();
        await people.SetAuthenticationTokenAsync(person, AccountStore.Keeper, AccountStore.SecretName, secrets.Protect(person.Id, secret));
        return secret;
    }

    /// <summary>What the QR code says: the address form that code programs read.</summary>
    public static string Address(Person person, string secret) =>
        $"otpauth://totp/Tankside:{Uri.EscapeDataString(person.Email!)}?secret={secret}&issuer=Tankside&digits=6&period=30";

    /// <summary>Four signs in a group are easier to copy.</summary>
    public static string Grouped(string secret) => string.Join(' ', secret.ToLowerInvariant().Chunk(4).Select(g => new string(g)));

    /// <summary>The codes for the day the device is lost, shown once; null when the code did not fit and nothing was switched.</summary>
    public async Task<IReadOnlyList<string>?> SwitchOnAsync(Person person, string code)
    {
        if (!await people.VerifyTwoFactorTokenAsync(person, people.Options.Tokens.AuthenticatorTokenProvider, Plain(code)))
        {
            return null;
        }

        return (await people.SetTwoFactorEnabledAsync(person, true)).Succeeded ? await NewCodesAsync(person) : null;
    }

    /// <summary>The earlier ones work no more.</summary>
    public async Task<IReadOnlyList<string>> NewCodesAsync(Person person) =>
        [.. await people.GenerateNewTwoFactorRecoveryCodesAsync(person, RecoveryCodes) ?? []];

    public async Task<int> CodesLeftAsync(Person person) => await people.CountRecoveryCodesAsync(person);

    /// <summary>Ends every session of the person; the secret and the codes are deleted.</summary>
    /// <param name="passkeysToo">For somebody whose phone is lost: a passkey on it must let nobody in, nor be asked for.</param>
    public async Task SwitchOffAsync(Person person, bool passkeysToo)
    {
        if (passkeysToo)
        {
            await db.Passkeys.Where(p => p.UserId == person.Id).ExecuteDeleteAsync();
        }

        await people.SetTwoFactorEnabledAsync(person, false);
        await db.UserTokens.Where(t => t.UserId == person.Id).ExecuteDeleteAsync();
    }

    /// <summary>A code as it is meant: spaces and strokes are for the eye.</summary>
    public static string Plain(string? typed) => new([.. (typed ?? "").Where(char.IsLetterOrDigit)]);

    public static bool IsOfDevice(string plain) => plain.Length == 6 && plain.All(char.IsAsciiDigit);

    /// <summary>A recovery code as it was made, e.g. "BCD23-FGH45".</summary>
    public static string AsKept(string plain) => plain.Length == 10 ? $"{plain[..5]}-{plain[5..]}".ToUpperInvariant() : plain;
}
