using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>
/// The framework's store of accounts, but what lets somebody in by a second step is not readable in it. What an earlier program kept readable goes
/// on working, and is written anew when it is used.
/// </summary>
public sealed class AccountStore(HatcheryDb db, StepSecrets secrets, IOptions<PasswordHasherOptions> hashes, IdentityErrorDescriber errors)
    : UserOnlyStore<Person, HatcheryDb, Guid>(db, errors)
{
    /// <summary>The names under which the framework keeps the secret and the codes among an account's tokens.</summary>
    public const string Keeper = "[AspNetUserStore]", SecretName = "AuthenticatorKey", CodesName = "RecoveryCodes";

    public override async Task<string?> GetAuthenticatorKeyAsync(Person user, CancellationToken cancellationToken)
    {
        if (await GetTokenAsync(user, Keeper, SecretName, cancellationToken) is not { Length: > 0 } kept)
        {
            return null;
        }

        if (StepSecrets.IsProtected(kept))
        {
            return secrets.Read(user.Id, kept);
        }

        // Saved with whatever is saved next: a code that fits is.
        await SetAuthenticatorKeyAsync(user, kept, cancellationToken);
        return kept;
    }

    public override Task SetAuthenticatorKeyAsync(Person user, string key, CancellationToken cancellationToken) =>
        SetTokenAsync(user, Keeper, SecretName, secrets.Protect(user.Id, key), cancellationToken);

    public override Task ReplaceCodesAsync(Person user, IEnumerable<string> recoveryCodes, CancellationToken cancellationToken) =>
        SetTokenAsync(user, Keeper, CodesName, HashedCodes.Make(recoveryCodes, hashes.Value.IterationCount), cancellationToken);

    public override async Task<bool> RedeemCodeAsync(Person user, string code, CancellationToken cancellationToken)
    {
        var kept = await GetTokenAsync(user, Keeper, CodesName, cancellationToken) ?? "";
        if (!HashedCodes.AreHashed(kept))
        {
            var codes = Readable(kept);
            if (!codes.Remove(code))
            {
                return false;
            }

            await ReplaceCodesAsync(user, codes, cancellationToken);
            return true;
        }

        if (HashedCodes.Without(kept, code) is not { } left)
        {
            return false;
        }

        await SetTokenAsync(user, Keeper, CodesName, left, cancellationToken);
        return true;
    }

    public override async Task<int> CountCodesAsync(Person user, CancellationToken cancellationToken) =>
        await GetTokenAsync(user, Keeper, CodesName, cancellationToken) is not { } kept ? 0 : HashedCodes.AreHashed(kept) ? HashedCodes.Count(kept) : Readable(kept).Count;

    private static List<string> Readable(string kept) => [.. kept.Split(';', StringSplitOptions.RemoveEmptyEntries)];
}
