using Microsoft.AspNetCore.Antiforgery;

namespace Tankside.Portal.Accounts;

public static class SignOut
{
    public static void MapAccounts(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/sign-out", LeaveAsync).AllowAnonymous().ExcludeFromDescription();
        routes.MapPasskeyQuestions();
    }

    /// <summary>
    /// The token is checked here and not by binding a form, so that a page left open longer than its session still leads to the sign-in
    /// page and not to an error.
    /// </summary>
    private static async Task<IResult> LeaveAsync(HttpContext context, IAntiforgery antiforgery, HouseSignIn signIn)
    {
        if (signIn.IsSignedIn(context.User))
        {
            if (!await antiforgery.IsRequestValidAsync(context))
            {
                return Results.BadRequest();
            }

            await signIn.SignOutAsync();
        }

        return Results.Redirect("/sign-in");
    }
}
