using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.WebUtilities;
using Tankside.Portal.Shell;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>Links to choose a new password. Each works once: the password that it sets makes it void.</summary>
public sealed class PasswordLinks(UserManager<Person> people, TanksideOptions options)
{
    public static readonly TimeSpan Lifetime = TimeSpan.FromHours(2);

    /// <summary>The code travels in the query, which is not logged.</summary>
    public async Task<Uri> NewAsync(Person person)
    {
        var token = await people.GeneratePasswordResetTokenAsync(person);
        var code = WebEncoders.Base64UrlEncode(Convert.FromBase64String(token));
        return new Uri(options.PublicUrl, $"reset-password/{person.Id}?code={code}");
    }

    /// <summary>The person the link was made for; null when it is unknown, used or too old.</summary>
    public async Task<Person?> OwnerAsync(Guid personId, string? code)
    {
        var person = await people.FindByIdAsync(personId.ToString());
        return person is not null && Token(code) is { } token
            && await people.VerifyUserTokenAsync(
                person, people.Options.Tokens.PasswordResetTokenProvider, UserManager<Person>.ResetPasswordTokenPurpose, token)
            ? person
            : null;
    }

    /// <summary>Sets the password, ends every open session and lifts a lock-out.</summary>
    public async Task<IdentityResult> UseAsync(Person person, string code, string password)
    {
        var result = await people.ResetPasswordAsync(person, Token(code) ?? "", password);
        if (result.Succeeded)
        {
            await people.SetLockoutEndDateAsync(person, null);
            await people.ResetAccessFailedCountAsync(person);
        }

        return result;
    }

    private static string? Token(string? code)
    {
        try
        {
            return code is null ? null : Convert.ToBase64String(WebEncoders.Base64UrlDecode(code));
        }
        catch (FormatException)
        {
            return null;
        }
    }
}
