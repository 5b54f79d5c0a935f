using System.Security.Claims;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>Ends a page that stays open when its person's password or role has changed, so that the security stamp no longer fits, or when a second step is demanded of them now.</summary>
public sealed class StampRevalidation(ILoggerFactory loggers, IServiceScopeFactory scopes, IOptions<IdentityOptions> options)
    : RevalidatingServerAuthenticationStateProvider(loggers)
{
    protected override TimeSpan RevalidationInterval => TimeSpan.FromMinutes(1);

    protected override async Task<bool> ValidateAuthenticationStateAsync(AuthenticationState authenticationState, CancellationToken cancellationToken)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            var people = scope.ServiceProvider.GetRequiredService<UserManager<Person>>();
            var person = await people.GetUserAsync(authenticationState.User);
            return person is not null
                && authenticationState.User.FindFirstValue(options.Value.ClaimsIdentity.SecurityStampClaimType) == await people.GetSecurityStampAsync(person)
                && CurrentUser.ProgrammeOf(authenticationState.User) is { } programme
                && !await OwedStep.IsByAsync(scope.ServiceProvider.GetRequiredService<HatcheryDb>(), person, programme);
        }
        catch (Exception e) when (DatabaseAway.Is(e))
        {
            return true; // Asked again in a minute. Until then the page gets nothing from the database either.
        }
    }
}
