using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Labels;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Flags.Cards;

/// <summary>The cards as files to print: of one tank, of all.</summary>
public static class CardAddress
{
    /// <summary>Asks for a page in each language.</summary>
    public const string BothLanguages = "both";

    public static void MapCards(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/tanks/{code}/cards/{kind}.pdf", OfTankAsync).RequireAuthorization(Policies.Tanks).ExcludeFromDescription();
        routes.MapGet("/tanks/cards/{kind}.pdf", OfAllAsync).RequireAuthorization(Policies.Labels).ExcludeFromDescription();
    }

    private static Task<Results<FileContentHttpResult, NotFound, ContentHttpResult>> OfTankAsync(
        string code, string kind, string? paper, string? lang, HttpContext context, CardTanks tanks, TimeProvider time, CancellationToken cancel) =>
        WriteAsync(code, kind, paper, lang, context, tanks, time, cancel);

    private static Task<Results<FileContentHttpResult, NotFound, ContentHttpResult>> OfAllAsync(
        string kind, string? paper, string? lang, HttpContext context, CardTanks tanks, TimeProvider time, CancellationToken cancel) =>
        WriteAsync(null, kind, paper, lang, context, tanks, time, cancel);

    private static async Task<Results<FileContentHttpResult, NotFound, ContentHttpResult>> WriteAsync(
        string? code, string kind, string? paper, string? lang, HttpContext context, CardTanks tanks, TimeProvider time, CancellationToken cancel)
    {
        if (CardKinds.Named(kind) is not { } card)
        {
            return TypedResults.NotFound();
        }

        if (LanguagesOf(lang, context) is not { } languages)
        {
            return PrintChoice.Refused("The card is there in English and Spanish. Ask for lang=en, lang=es or lang=both.");
        }

        if (!string.IsNullOrEmpty(paper) && PaperSize.Named(paper) is null)
        {
            return PrintChoice.NoSuchPaper();
        }

        var found = await tanks.LoadAsync(CurrentUser.From(context.User)!, code, cancel);
        if (found.Count == 0)
        {
            return TypedResults.NotFound();
        }

        var programme = found[0].Place.Programme;
        var title = $"{CardKinds.Of(card).In(languages[0].Language)}, {(code is null ? programme.Name : found[0].Code)}";
        var sheets = found.SelectMany(t => languages.Select(words => t.Sheet(card, words))).ToList();

        // A code on it may be replaced the next minute, and its numbers are of today.
        context.Response.Headers.CacheControl = "private, no-store";
        return TypedResults.Bytes(
            new CardDrawing(PaperSize.Named(paper) ?? PrintChoice.Usual(programme)).Write(title, languages[0].Language, sheets, time.GetUtcNow().UtcDateTime),
            PaperDocument.ContentType);
    }

    private static IReadOnlyList<ClassWords>? LanguagesOf(string? asked, HttpContext context) => asked switch
    {
        null or "" => [ClassWords.Liked(context.Request.Headers.AcceptLanguage)],
        BothLanguages => ClassWords.All,
        _ => ClassWords.Named(asked) is { } words ? [words] : null,
    };
}
