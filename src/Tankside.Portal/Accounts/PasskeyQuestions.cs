using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using Tankside.Portal.Shell;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>What the script asks for before the browser may ask a device: the question, as JSON.</summary>
public static class PasskeyQuestions
{
    public static void MapPasskeyQuestions(this IEndpointRouteBuilder routes)
    {
        var questions = routes.MapGroup("").WithMetadata(new RequireAntiforgeryTokenAttribute()).ExcludeFromDescription();
        questions.MapPost("/sign-in/passkey/options", AskAsync).AllowAnonymous();
        questions.MapPost("/me/sign-in/passkey/options", AskNewAsync).RequireAuthorization(Policies.OwnSignIn).WithMetadata(new SpokenAttribute());
    }

    /// <summary>Names nobody: the device offers the passkeys that it has for this place.</summary>
    private static async Task<ContentHttpResult> AskAsync(HttpContext context, HouseSignIn signIn)
    {
        context.Response.Headers.CacheControl = "no-store";
        return TypedResults.Text(await signIn.MakePasskeyRequestOptionsAsync(null), "application/json");
    }

    /// <summary>A passkey is a way in for good, so whoever finds a page left open cannot add one without the password.</summary>
    private static async Task<IResult> AskNewAsync(HttpContext context, UserManager<Person> people, HouseSignIn signIn, Passkeys passkeys, Say say)
    {
        context.Response.Headers.CacheControl = "no-store";
        var form = await context.Request.ReadFormAsync(context.RequestAborted);
        if (await people.GetUserAsync(context.User) is not { } person || !await signIn.KnowsPasswordAsync(person, form["PasskeyPassword"].ToString()))
        {
            return TypedResults.Text(say["This is not your password. After eight wrong tries an account rests for ten minutes. No passkey was added."], statusCode: StatusCodes.Status400BadRequest);
        }

        return TypedResults.Text(await passkeys.AskNewAsync(person), "application/json");
    }
}
