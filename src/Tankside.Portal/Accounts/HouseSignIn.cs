using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>
/// Sign-in with two rules more: the made-up people of the demo season, whose passwords are printed, only get in in Development; and every
/// refusal takes as long as a wrong password, so that nobody learns from the clock which addresses have accounts.
/// </summary>
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
    private static readonly Person Nobody = new() { Name = "" };

    private static string? hashOfNobody;

    /// <summary>False for every reason alike.</summary>
    public async Task<bool> TryAsync(string email, string password, bool remember)
    {
        var person = await UserManager.FindByEmailAsync(email);
        if (person is null || !await CanSignInAsync(person) || await UserManager.IsLockedOutAsync(person))
        {
            SpendTheTime(password);
            return false;
        }

        return (await PasswordSignInAsync(person, password, remember, lockoutOnFailure: true)).Succeeded;
    }

    /// <summary>Whether this is the person's password, with the same lock-out as signing in.</summary>
    public async Task<bool> KnowsPasswordAsync(Person person, string password) =>
        (await CheckPasswordSignInAsync(person, password, lockoutOnFailure: true)).Succeeded;

    /// <summary>Writes what the session says of its person anew, after they changed it.</summary>
    public async Task RefreshAsync(Guid personId)
    {
        if (await UserManager.FindByIdAsync(personId.ToString()) is { } person)
        {
            await RefreshSignInAsync(person);
        }
    }

    private void SpendTheTime(string password)
    {
        var hasher = UserManager.PasswordHasher;
        hashOfNobody ??= hasher.HashPassword(Nobody, Secrets.New());
        hasher.VerifyHashedPassword(Nobody, hashOfNobody, password);
    }

    public override async Task<bool> CanSignInAsync(Person user) =>
        (!user.IsDemo || environment.IsDevelopment()) && await base.CanSignInAsync(user);
}
