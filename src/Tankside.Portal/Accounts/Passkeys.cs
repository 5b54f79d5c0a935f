using System.Buffers.Text;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>A passkey as its owner sees it.</summary>
/// <param name="Id">The credential's id as text, to name it in a form.</param>
public sealed record OwnPasskey(string Id, string Name, DateTime MadeAt, DateTime? LastUsedAt);

/// <summary>A person's passkeys: keys that a phone, a computer or a stick keeps and that never leave it (WebAuthn).</summary>
public sealed class Passkeys(UserManager<Person> people, HouseSignIn signIn, HatcheryDb db, Say say)
{
    public const int LongestName = 60, Most = 10;

    public async Task<IReadOnlyList<OwnPasskey>> OfAsync(Guid personId, CancellationToken cancel)
    {
        var rows = await db.Passkeys.AsNoTracking().Where(p => p.UserId == personId)
            .Select(p => new { p.CredentialId, p.Data.Name, p.Data.CreatedAt, Used = EF.Property<DateTime?>(p, PasskeyUse.LastUsedAt) }).ToListAsync(cancel);
        return [.. rows.Select(r => new OwnPasskey(Base64Url.EncodeToString(r.CredentialId), r.Name ?? "Passkey", r.CreatedAt.UtcDateTime, r.Used)).OrderBy(p => p.MadeAt)];
    }

    /// <summary>What the browser is asked for, as JSON; the framework keeps the question in a cookie of five minutes.</summary>
    public async Task<string> AskNewAsync(Person person) => await signIn.MakePasskeyCreationOptionsAsync(new PasskeyUserEntity
    {
        Id = person.Id.ToString(),
        Name = person.Email!,
        DisplayName = person.Name,
    });

    /// <summary>Null when it is added, else why not; then nothing was.</summary>
    public async Task<string?> AddAsync(Person person, string? credential, string? name, CancellationToken cancel)
    {
        if (await db.Passkeys.CountAsync(p => p.UserId == person.Id, cancel) >= Most)
        {
            return say.Of("You have {0} passkeys. Remove one that you no longer use first; no passkey was added.", Most);
        }

        if (await CheckedAsync(person, credential) is not { } passkey)
        {
            return say["The answer of the device did not fit, or came too late. No passkey was added; please try again."];
        }

        var wanted = string.IsNullOrWhiteSpace(name) ? "Passkey" : name.Trim();
        passkey.Name = wanted.Length > LongestName ? wanted[..LongestName] : wanted;
        return (await people.AddOrUpdatePasskeyAsync(person, passkey)).Succeeded ? null : say["The passkey could not be stored. Please try again."];
    }

    /// <summary>Takes a passkey away and ends every session of the person: whoever had got in by it is out.</summary>
    public async Task<bool> RemoveAsync(Person person, string? id, CancellationToken cancel)
    {
        if (id is null || !Base64Url.IsValid(id))
        {
            return false;
        }

        var credential = Base64Url.DecodeFromChars(id);
        if (await db.Passkeys.Where(p => p.UserId == person.Id && p.CredentialId == credential).ExecuteDeleteAsync(cancel) == 0)
        {
            return false;
        }

        await people.UpdateSecurityStampAsync(person);
        return true;
    }

    private async Task<UserPasskeyInfo?> CheckedAsync(Person person, string? credential)
    {
        if (string.IsNullOrWhiteSpace(credential))
        {
            return null;
        }

        try
        {
            var result = await signIn.PerformPasskeyAttestationAsync(credential);
            return result.Succeeded && result.UserEntity.Id == person.Id.ToString() ? result.Passkey : null;
        }
        catch (InvalidOperationException)
        {
            // Nothing was asked for in this browser, or too long ago.
            return null;
        }
    }
}
