using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using Tankside.Storage;

namespace Tankside.Portal.Accounts;

/// <summary>Ends a page that stays open when its session is over: each minute <see cref="LivingSession"/> is asked.</summary>
public sealed class StampRevalidation(ILoggerFactory loggers, IServiceScopeFactory scopes) : RevalidatingServerAuthenticationStateProvider(loggers)
{
    protected override TimeSpan RevalidationInterval => Sessions.CheckEvery;

    protected override async Task<bool> ValidateAuthenticationStateAsync(AuthenticationState authenticationState, CancellationToken cancellationToken)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            return await scope.ServiceProvider.GetRequiredService<LivingSession>().HoldsAsync(authenticationState.User);
        }
        catch (Exception e) when (DatabaseAway.Is(e))
        {
            return true; // Asked again in a minute. Until then the page gets nothing from the database either.
        }
    }
}
