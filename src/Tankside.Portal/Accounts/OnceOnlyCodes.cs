using System.Globalization;
using Microsoft.AspNetCore.Identity;
using Tankside.Portal.Shell;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>
/// The framework's check of a code, and each code once: RFC 6238, 5.2 asks that a code that was seen over somebody's shoulder is worth nothing
/// after its owner has used it.
/// </summary>
public sealed class OnceOnlyCodes(TimeProvider time) : AuthenticatorTokenProvider<Person>
{
    private const string Keeper = "Tankside", LastUsed = "LastUsedCode";

    /// <summary>As long as the framework takes a code, two steps of half a minute each way, and a step more.</summary>
    private static readonly TimeSpan Alive = TimeSpan.FromMinutes(3);

    public override async Task<bool> ValidateAsync(string purpose, string token, UserManager<Person> manager, Person user)
    {
        if (!await base.ValidateAsync(purpose, token, manager, user))
        {
            return false;
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var used = (await manager.GetAuthenticationTokenAsync(user, Keeper, LastUsed) ?? "").Split(' ').Chunk(2).Where(u => u.Length == 2)
            .Select(u => (Hash: u[0], Ticks: long.Parse(u[1], CultureInfo.InvariantCulture)))
            .Where(u => now.Ticks - u.Ticks < Alive.Ticks).ToList();
        var hash = Secrets.Hash(token)[..16];
        if (used.Exists(u => u.Hash == hash))
        {
            return false;
        }

        // The account's own stamp changes with it, so that of two who send the same code at once one is refused.
        var kept = string.Join(' ', used.Append((Hash: hash, now.Ticks)).Select(u => $"{u.Hash} {u.Ticks}"));
        return (await manager.SetAuthenticationTokenAsync(user, Keeper, LastUsed, kept)).Succeeded;
    }
}
