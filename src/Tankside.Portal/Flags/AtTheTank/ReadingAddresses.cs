using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>
/// The two doors to today's reading. A class comes by /t/{room code}: a whole static document that needs no script, cookie or session; the code
/// in the address is the key, so a forged post gains nothing that the address does not already give, and no form ever times out. An adult
/// comes by /tanks/{code}/reading, signed in, for their own look or for what a phone call told.
/// </summary>
public static class ReadingAddresses
{
    public static void MapReadingPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet(OfflinePage.Address, (HttpContext context) => new RazorComponentResult<OfflinePage>(new { Words = Door.WordsOf(context.Request) }))
            .AllowAnonymous().ExcludeFromDescription();
        var atLabel = routes.MapGroup("/t/{code}").AllowAnonymous().DisableAntiforgery().ExcludeFromDescription();
        atLabel.MapGet("", (string code, Guid? sent, Guid? ask, HttpContext context, TankByCode tanks, TodaysReading reading, CancellationToken cancel) =>
            AtLabelAsync(code, context, tanks, (view, door) => reading.ShowAsync(view, door, sent, ask, cancel), cancel));
        atLabel.MapPost("", async (string code, IFormCollection fields, HttpContext context, TankByCode tanks, TodaysReading reading, SentTogether sent, CancellationToken cancel) =>
            (IsShutOut(context) ? null : await reading.SendAtOnceAsync(code, Door.OfClass(code, context.Request), fields, sent))
            ?? await AtLabelAsync(code, context, tanks, (view, door) => reading.SendAsync(view, door, fields, cancel), cancel));
        atLabel.MapPost("/answer", (string code, IFormCollection fields, HttpContext context, TankByCode tanks, TodaysReading reading, CancellationToken cancel) =>
            AtLabelAsync(code, context, tanks, (view, door) => reading.AnswerAsync(view, door, fields, cancel), cancel));

        atLabel.MapGet("/tank", (string code, HttpContext context, TankByCode tanks, CancellationToken cancel) =>
            AtLabelAsync(code, context, tanks, (view, door) => Task.FromResult<IResult>(
                new RazorComponentResult<ClassTankPage>(new { View = view, Door = door })), cancel));

        atLabel.MapGet("/help", (string code, string? sign, Guid? sent, HttpContext context, TankByCode tanks, HelpAtTheTank help, CancellationToken cancel) =>
            AtLabelAsync(code, context, tanks, (view, door) => help.ShowAsync(view, door, sign, sent, cancel), cancel));
        atLabel.MapPost("/help", (string code, IFormCollection fields, HttpContext context, TankByCode tanks, HelpAtTheTank help, CancellationToken cancel) =>
            AtLabelAsync(code, context, tanks, (view, door) => help.SendAsync(view, door, fields, cancel), cancel));

        var signedIn = routes.MapGroup("/tanks/{code}/reading").RequireAuthorization(Policies.Tanks)
            .WithMetadata(new RequireAntiforgeryTokenAttribute()).ExcludeFromDescription(); // generated code does not ask for the token by itself
        signedIn.MapGet("", (string code, Guid? sent, Guid? ask, Guid? corrects, HttpContext context, TankByCode tanks, TodaysReading reading, CancellationToken cancel) =>
            SignedInAsync(code, context, tanks, (view, door) => reading.ShowAsync(view, door, sent, ask, cancel, corrects), cancel));
        signedIn.MapPost("", (string code, IFormCollection fields, HttpContext context, TankByCode tanks, TodaysReading reading, CancellationToken cancel) =>
            SignedInAsync(code, context, tanks, (view, door) => reading.SendAsync(view, door, fields, cancel), cancel));
        signedIn.MapPost("/answer", (string code, IFormCollection fields, HttpContext context, TankByCode tanks, TodaysReading reading, CancellationToken cancel) =>
            SignedInAsync(code, context, tanks, (view, door) => reading.AnswerAsync(view, door, fields, cancel), cancel));
        signedIn.MapGet("/week", (string code, DateOnly? of, HttpContext context, TankByCode tanks, WeekAtOnce week, CancellationToken cancel) =>
            SignedInAsync(code, context, tanks, (view, door) => week.ShowAsync(view, door, of, cancel), cancel));
        signedIn.MapPost("/week", (string code, IFormCollection fields, HttpContext context, TankByCode tanks, WeekAtOnce week, CancellationToken cancel) =>
            SignedInAsync(code, context, tanks, (view, door) => week.SendAsync(view, door, fields, cancel), cancel));
        signedIn.MapGet("/help", (string code, string? sign, Guid? sent, HttpContext context, TankByCode tanks, HelpAtTheTank help, CancellationToken cancel) =>
            SignedInAsync(code, context, tanks, (view, door) => help.ShowAsync(view, door, sign, sent, cancel), cancel));
        signedIn.MapPost("/help", (string code, IFormCollection fields, HttpContext context, TankByCode tanks, HelpAtTheTank help, CancellationToken cancel) =>
            SignedInAsync(code, context, tanks, (view, door) => help.SendAsync(view, door, fields, cancel), cancel));
    }

    private static async Task<IResult> AtLabelAsync(
        string code, HttpContext context, TankByCode tanks, Func<TankView, Door, Task<IResult>> page, CancellationToken cancel)
    {
        var shutOut = IsShutOut(context);
        if (!shutOut && await tanks.FindAsync(code, Visitor.AddressOf(context), IsAfterSending(context), cancel) is { } view)
        {
            return await page(view, Door.OfClass(code, context.Request).Calling(view.Place.Names));
        }

        return new RazorComponentResult<NoSuchCodePage>(new { ShutOut = shutOut, Words = Door.WordsOf(context.Request) })
        {
            StatusCode = shutOut ? StatusCodes.Status429TooManyRequests : StatusCodes.Status404NotFound,
        };
    }

    /// <summary>Only then is anything judged by what the lot's other tanks lose.</summary>
    private static bool IsAfterSending(HttpContext context) => context.Request.Query.ContainsKey("sent");

    private static bool IsShutOut(HttpContext context) => context.RequestServices.GetRequiredService<WrongCodes>().IsShutOut(Visitor.AddressOf(context));

    private static async Task<IResult> SignedInAsync(
        string code, HttpContext context, TankByCode tanks, Func<TankView, Door, Task<IResult>> page, CancellationToken cancel)
    {
        if (CurrentUser.From(context.User) is not { } user || await tanks.FindAsync(code, user, IsAfterSending(context), cancel) is not { } view)
        {
            return TypedResults.NotFound();
        }

        var tokens = context.RequestServices.GetRequiredService<IAntiforgery>().GetAndStoreTokens(context);
        return await page(view, Door.OfAdult(view.Code, user, tokens.RequestToken!, tokens.FormFieldName, context.Request).Calling(view.Place.Names));
    }
}
