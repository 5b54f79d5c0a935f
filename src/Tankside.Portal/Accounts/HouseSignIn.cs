using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>Sign-in with one rule more: the made-up people of the demo season, whose passwords are printed, only get in in Development.</summary>
public sealed class HouseSignIn(
    UserManager<Person> people,
    IHttpContextAccessor context,
    IUserClaimsPrincipalFactory<Person> claims,
    IOptions<IdentityOptions> options,
    ILogger<SignInManager<Person>> logger,
    IAuthenticationSchemeProvider schemes,
    IUserConfirmation<Person> confirmation,
    IHostEnvironment environment) : SignInManager<Person>(people, context, claims, options, logger, schemes, confirmation)
{
    public override async Task<bool> CanSignInAsync(Person user) =>
        (!user.IsDemo || environment.IsDevelopment()) && await base.CanSignInAsync(user);
}
