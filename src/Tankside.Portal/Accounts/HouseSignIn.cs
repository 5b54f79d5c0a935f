using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>How far somebody came who asked to be let in.</summary>
public enum SignInStep
{
    /// <summary>For every reason alike.</summary>
    Refused,

    /// <summary>The password fits; the code of the second step is asked.</summary>
    CodeAsked,

    /// <summary>The password fits; the programme demands two steps, and the second of this person is a passkey.</summary>
    PasskeyAsked,

    In,
}

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
    IHostEnvironment environment,
    HatcheryDb db,
    OpenSessions open,
    TimeProvider time,
    ILogger<HouseSignIn> log) : SignInManager<Person>(people, context, claims, options, logger, schemes, confirmation)
{
    private static readonly Person Nobody = new() { Name = "" };

    private static string? hashOfNobody;

    public async Task<SignInStep> TryAsync(string email, string password, bool remember)
    {
        var person = await UserManager.FindByEmailAsync(email);
        if (person is null || !await CanSignInAsync(person) || await UserManager.IsLockedOutAsync(person))
        {
            SpendTheTime(password);
            return Noted(person, "password", SignInStep.Refused);
        }

        var result = await PasswordSignInAsync(person, password, remember, lockoutOnFailure: true);
        return Noted(person, "password", result.Succeeded ? SignInStep.In : result.RequiresTwoFactor ? SignInStep.CodeAsked : result.IsNotAllowed ? SignInStep.PasskeyAsked : SignInStep.Refused);
    }

    /// <summary>The second step, by a code of the device or one of those kept for the day it is lost. Wrong ones count like wrong passwords.</summary>
    public async Task<bool> TryCodeAsync(string typed, bool remember)
    {
        var person = await GetTwoFactorAuthenticationUserAsync();
        return Noted(person, "code", await IsCodeOfAsync(person, typed, remember) ? SignInStep.In : SignInStep.Refused) == SignInStep.In;
    }

    /// <summary>
    /// Signs in by a passkey, which counts as both steps: it is unlocked on the device by a finger, a face or a number. The framework's own
    /// way asks neither whether the person may sign in here nor whether the account rests.
    /// </summary>
    public async Task<bool> TryPasskeyAsync(string credential)
    {
        var (person, passkey) = await PasskeyOwnerAsync(credential);
        return Noted(person, "passkey", await LetsInAsync(person, passkey) ? SignInStep.In : SignInStep.Refused) == SignInStep.In;
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

    /// <summary>
    /// Lets somebody in who has just given their password on another page than the sign-in. False when their second step is still missing;
    /// then the sign-in page asks for both.
    /// </summary>
    public async Task<bool> LetInAsync(Person person)
    {
        if (UserManager.GetUserId(Context.User) == person.Id.ToString())
        {
            await RefreshSignInAsync(person);
            return true;
        }

        if (person.TwoFactorEnabled || await OnlyByPasskeyAsync(person))
        {
            return false;
        }

        await SignInAsync(person, isPersistent: false);
        return true;
    }

    /// <summary>A session that is only written anew keeps its beginning and its row; a new one takes the place of the one in this browser.</summary>
    public override async Task SignInWithClaimsAsync(Person user, AuthenticationProperties? authenticationProperties, IEnumerable<Claim> additionalClaims)
    {
        var session = authenticationProperties ?? new AuthenticationProperties();
        Sessions.Begin(session, time.GetUtcNow());
        if (Sessions.IdOf(session) is { } id)
        {
            await open.RenewAsync(id, user);
        }
        else
        {
            id = await open.BeginAsync(user, Context.Request.Headers.UserAgent, instead: Sessions.IdOf(Context.User));
            Sessions.SetId(session, id);
        }

        await base.SignInWithClaimsAsync(user, session, additionalClaims.Append(Sessions.ClaimOf(id)));
    }

    /// <summary>Ends the session itself too: a copy of its cookie is worth nothing.</summary>
    public override async Task SignOutAsync()
    {
        if (Sessions.IdOf(Context.User) is { } id && CurrentPerson is { } person)
        {
            await open.EndAsync(person, id);
        }

        await base.SignOutAsync();
    }

    private Guid? CurrentPerson => Guid.TryParse(UserManager.GetUserId(Context.User), out var id) ? id : null;

    /// <summary>"Not allowed" is used for nothing else here: it says that the password fits and that the passkey has to come before it lets in.</summary>
    protected override async Task<SignInResult> SignInOrTwoFactorAsync(Person user, bool isPersistent, string? loginProvider = null, bool bypassTwoFactor = false) =>
        !bypassTwoFactor && await OnlyByPasskeyAsync(user) ? SignInResult.NotAllowed : await base.SignInOrTwoFactorAsync(user, isPersistent, loginProvider, bypassTwoFactor);

    public override async Task<bool> CanSignInAsync(Person user) =>
        (!user.IsDemo || environment.IsDevelopment()) && await base.CanSignInAsync(user);

    /// <summary>Where two steps are demanded, the password alone must not do for somebody whose second step is a passkey and no code.</summary>
    private async Task<bool> OnlyByPasskeyAsync(Person person) =>
        !person.TwoFactorEnabled && await OwedStep.DemandedByAsync(db, person) is not null && await OwedStep.HasOneAsync(db, person);

    private async Task<bool> IsCodeOfAsync(Person? person, string typed, bool remember)
    {
        if (person is null || !await CanSignInAsync(person) || await UserManager.IsLockedOutAsync(person))
        {
            return false;
        }

        var code = TwoSteps.Plain(typed);
        if (TwoSteps.IsOfDevice(code))
        {
            return (await TwoFactorAuthenticatorSignInAsync(code, remember, rememberClient: false)).Succeeded;
        }

        if ((await UserManager.RedeemTwoFactorRecoveryCodeAsync(person, TwoSteps.AsKept(code))).Succeeded)
        {
            await UserManager.ResetAccessFailedCountAsync(person);
            await SignInWithClaimsAsync(person, remember, [new Claim("amr", "mfa")]);
            await Context.SignOutAsync(IdentityConstants.TwoFactorUserIdScheme);
            return true;
        }

        await UserManager.AccessFailedAsync(person);
        return false;
    }

    private async Task<bool> LetsInAsync(Person? person, UserPasskeyInfo? passkey)
    {
        if (person is null || passkey is null || !await CanSignInAsync(person) || await UserManager.IsLockedOutAsync(person)
            || !(await UserManager.AddOrUpdatePasskeyAsync(person, passkey)).Succeeded)
        {
            return false;
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await db.Passkeys.Where(p => p.CredentialId == passkey.CredentialId)
            .ExecuteUpdateAsync(set => set.SetProperty(p => EF.Property<DateTime?>(p, PasskeyUse.LastUsedAt), now));
        return (await SignInOrTwoFactorAsync(person, isPersistent: false, loginProvider: null, bypassTwoFactor: true)).Succeeded;
    }

    private async Task<(Person? Person, UserPasskeyInfo? Passkey)> PasskeyOwnerAsync(string credential)
    {
        if (string.IsNullOrWhiteSpace(credential))
        {
            return (null, null);
        }

        try
        {
            var result = await PerformPasskeyAssertionAsync(credential);
            return result.Succeeded ? (result.User, result.Passkey) : (null, null);
        }
        catch (InvalidOperationException)
        {
            // Nobody was asked for a passkey in this browser, or too long ago.
            return (null, null);
        }
    }

    /// <summary>Writes down every try, whoever it was. What was typed is not in it: an address of nobody's may be a password in the wrong field.</summary>
    private SignInStep Noted(Person? person, string by, SignInStep step)
    {
        log.LogInformation("Sign-in by {Means} of {Person}: {Step}", by, person is null ? "nobody known" : person.Id.ToString(), step);
        return step;
    }

    private void SpendTheTime(string password)
    {
        var hasher = UserManager.PasswordHasher;
        hashOfNobody ??= hasher.HashPassword(Nobody, Secrets.New());
        hasher.VerifyHashedPassword(Nobody, hashOfNobody, password);
    }
}
