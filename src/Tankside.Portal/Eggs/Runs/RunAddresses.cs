using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>
/// A run's files for those who plan it, and the phone sheet for those who drive: /run/{code} from the printed sheet or the mail, a whole static
/// document that needs no account. The code opens one driver's round, until two days after it, and takes ticks for it; nothing else.
/// </summary>
public static class RunAddresses
{
    public static void MapRuns(this IEndpointRouteBuilder routes)
    {
        var planned = routes.MapGroup("/runs/{runId:guid}").RequireAuthorization(Policies.Round).ExcludeFromDescription();
        planned.MapGet("/sheets.pdf", SheetsAsync);
        planned.MapGet("/drivers/{number:int}", SheetOfAsync);

        var sheet = routes.MapGroup("/run/{code}").AllowAnonymous().DisableAntiforgery().ExcludeFromDescription().WithMetadata(new SpokenAttribute());
        sheet.MapGet("", (string code, RunBoard board, CancellationToken cancel) =>
            ByCodeAsync(code, board, (view, driver) => Task.FromResult<IResult>(Page(view, driver, null)), cancel));
        sheet.MapPost("/ticks", (string code, IFormCollection fields, HttpContext context, RunBoard board, TakeTick take, CancellationToken cancel) =>
            ByCodeAsync(code, board, async (view, driver) => await take.HandleAsync(view, driver, fields, cancel) is { } why
                ? Page(view, driver, why, StatusCodes.Status400BadRequest)
                : Kept(context, $"/run/{driver.Code}"), cancel));
        sheet.MapGet("/run.ics", (string code, HttpContext context, RunBoard board, TanksideOptions options, CancellationToken cancel) =>
            ByCodeAsync(code, board, (view, driver) => Task.FromResult<IResult>(TypedResults.Bytes(
                Encoding.UTF8.GetBytes(RunCalendar.Write(view, driver, options.PublicUrl)), RunCalendar.ContentType, $"{view.Run.Name}-{driver.Number}.ics")), cancel));
    }

    private static async Task<IResult> ByCodeAsync(string code, RunBoard board, Func<RunView, RunDriver, Task<IResult>> answer, CancellationToken cancel) =>
        await board.FindAsync(code, cancel) is var (view, driver)
            ? await answer(view, driver)
            : new RazorComponentResult<NoSuchSheetPage> { StatusCode = StatusCodes.Status404NotFound };

    private static RazorComponentResult<DriverSheet> Page(RunView view, RunDriver driver, string? trouble, int status = StatusCodes.Status200OK) =>
        new(new { View = view, Driver = driver, Trouble = trouble }) { StatusCode = status };

    /// <summary>The phone's outbox cannot look into a redirect: it is told in a header.</summary>
    private static IResult Kept(HttpContext context, string next)
    {
        if (context.Request.Headers.ContainsKey(ClassMark.Outbox))
        {
            context.Response.Headers[ClassMark.Next] = next;
            return TypedResults.Ok();
        }

        context.Response.Headers.Location = next;
        return TypedResults.StatusCode(StatusCodes.Status303SeeOther);
    }

    private static async Task<Results<FileContentHttpResult, NotFound>> SheetsAsync(
        Guid runId, string? paper, HttpContext context, RunBoard board, RunContacts contacts, TanksideOptions options, CancellationToken cancel)
    {
        var user = CurrentUser.From(context.User)!;
        if (await board.FindAsync(user, runId, cancel) is not { } view)
        {
            return TypedResults.NotFound();
        }

        context.Response.Headers.CacheControl = "private, no-store";
        var drawing = new RunSheetDrawing(view, await contacts.OfAsync(view, user, cancel), options.PublicUrl, PaperSize.Named(paper) ?? PaperSize.Letter);
        return TypedResults.Bytes(drawing.Write(), PaperDocument.ContentType);
    }

    private static async Task<Results<RedirectHttpResult, NotFound>> SheetOfAsync(Guid runId, int number, HttpContext context, RunBoard board, CancellationToken cancel)
    {
        var view = await board.FindAsync(CurrentUser.From(context.User)!, runId, cancel);
        return view?.Drivers.FirstOrDefault(d => d.Number == number) is { } driver ? TypedResults.Redirect($"/run/{driver.Code}") : TypedResults.NotFound();
    }
}
