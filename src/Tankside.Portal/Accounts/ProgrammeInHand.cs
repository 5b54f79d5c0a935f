using System.Security.Claims;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>Which of their programmes a person works in at this moment: what was just chosen, else what the session was about before.</summary>
public sealed class ProgrammeInHand(IHttpContextAccessor requests)
{
    /// <summary>From now on in this request, and in the session that it writes.</summary>
    public void Take(Guid person, Guid programme)
    {
        if (requests.HttpContext is { } context)
        {
            context.Items[typeof(ProgrammeInHand)] = (person, programme);
        }
    }

    /// <summary>Null when nothing is known yet, as at a sign-in.</summary>
    public Guid? Of(Guid person)
    {
        if (requests.HttpContext is not { } context)
        {
            return null;
        }

        if (context.Items[typeof(ProgrammeInHand)] is (Guid whose, Guid programme) && whose == person)
        {
            return programme;
        }

        return context.User.FindFirstValue(ClaimTypes.NameIdentifier) == person.ToString() ? CurrentUser.ProgrammeOf(context.User) : null;
    }
}

/// <summary>
/// Looks at a session each minute as the framework does, and writes it anew for the programme that it was about: a choice on one computer must
/// not turn the page that is open on another.
/// </summary>
public sealed class SessionCheck(
    IOptions<SecurityStampValidatorOptions> options, SignInManager<Person> signIn, ILoggerFactory loggers, ProgrammeInHand inHand, OpenSessions open, TimeProvider time)
    : SecurityStampValidator<Person>(options, signIn, loggers)
{
    public override async Task ValidateAsync(CookieValidatePrincipalContext context)
    {
        if (Sessions.IdOf(context.Properties) is not { } id || open.IsJustEnded(id) || Sessions.IsOver(context.Properties, time.GetUtcNow()))
        {
            await RefuseAsync(context);
            return;
        }

        await base.ValidateAsync(context);
        // What was written anew says nothing of its row yet.
        if (context.Principal is { Identity: ClaimsIdentity identity } principal && Sessions.IdOf(principal) is null)
        {
            identity.AddClaim(Sessions.ClaimOf(id));
        }
    }

    protected override async Task SecurityStampVerified(Person user, CookieValidatePrincipalContext context)
    {
        if (!await open.HoldsAsync(Sessions.IdOf(context.Properties)!.Value, user))
        {
            await RefuseAsync(context);
            return;
        }

        if (context.Principal is { } principal && CurrentUser.ProgrammeOf(principal) is { } before)
        {
            inHand.Take(user.Id, before);
        }

        await base.SecurityStampVerified(user, context);
    }

    private Task RefuseAsync(CookieValidatePrincipalContext context)
    {
        context.RejectPrincipal();
        return SignInManager.SignOutAsync();
    }
}

/// <summary>A form is good for the programme that it was opened in: one left open before a change to another must not be saved in that other.</summary>
public sealed class FormsOfOneProgramme : IAntiforgeryAdditionalDataProvider
{
    public string GetAdditionalData(HttpContext context) => CurrentUser.ProgrammeOf(context.User)?.ToString("N") ?? "";

    /// <summary>
    /// Leaving, and changing over, mean the same wherever they were asked. A form that names no programme was opened before forms named one, or by
    /// somebody who was in none.
    /// </summary>
    public bool ValidateAdditionalData(HttpContext context, string additionalData) =>
        additionalData.Length == 0
        || additionalData == GetAdditionalData(context)
        || context.Request.Path.StartsWithSegments("/sign-out", StringComparison.Ordinal)
        || context.Request.Path.StartsWithSegments("/me/programme", StringComparison.Ordinal);
}
