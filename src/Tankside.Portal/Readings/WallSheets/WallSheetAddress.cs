using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Labels;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Readings.WallSheets;

/// <summary>The week's sheet of a tank as a file to print.</summary>
public static class WallSheetAddress
{
    public static void MapWallSheets(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/tanks/{code}/wall-sheet.pdf", GetAsync).RequireAuthorization(Policies.Tanks).ExcludeFromDescription();

    private static async Task<Results<FileContentHttpResult, NotFound, ContentHttpResult>> GetAsync(
        string code, string? week, string? paper, string? lang, HttpContext context, TankSheets sheets, TimeProvider time, CancellationToken cancel)
    {
        var monday = PrintChoice.Week(week);
        if (monday is null && !string.IsNullOrEmpty(week))
        {
            return PrintChoice.Refused("There is no such week here. Give any day of it, such as week=2026-11-30, or leave it out for the week at hand.");
        }

        if (PrintChoice.Paper(paper) is not { } size)
        {
            return PrintChoice.NoSuchPaper();
        }

        var words = string.IsNullOrEmpty(lang) ? ClassWords.Liked(context.Request.Headers.AcceptLanguage) : ClassWords.Named(lang);
        if (words is null)
        {
            return PrintChoice.Refused("The sheet is there in English and Spanish. Ask for lang=en or lang=es.");
        }

        if (await sheets.LoadAsync(CurrentUser.From(context.User)!, code, monday, cancel) is not { } sheet)
        {
            return TypedResults.NotFound();
        }

        context.Response.Headers.CacheControl = "private, no-store";
        return TypedResults.Bytes(new WallSheetDrawing(sheet, words, size).Write(time.GetUtcNow().UtcDateTime), PaperDocument.ContentType);
    }
}
