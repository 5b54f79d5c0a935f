using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases;

/// <summary>The season totals file over HTTP: for a program with a coordinator's key, and as a download for those who may see the page.</summary>
public static class TotalsApi
{
    private const string Csv = "text/csv";

    private const string ContentType = "text/csv; charset=utf-8; header=present";

    public static void MapTotals(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/v1/seasons/{name}/totals", GetAsync)
            .RequireAuthorization(Policies.CoordinatorKey)
            .WithTags("Totals")
            .WithSummary("The season totals of the key's programme")
            .WithDescription("One row a tank, as text/csv in UTF-8 with a byte order mark.")
            .Produces<string>(200, Csv).ProducesProblem(401).ProducesProblem(403).ProducesProblem(404).ProducesProblem(406);
        routes.MapGet("/totals/{name}.csv", DownloadAsync).RequireAuthorization(Policies.Totals).ExcludeFromDescription();
    }

    private static async Task<Results<FileContentHttpResult, ProblemHttpResult>> GetAsync(
        string name, HttpContext context, TotalsOfSeason seasons, CancellationToken cancel)
    {
        if (!TakesCsv(context.Request))
        {
            return TypedResults.Problem("The totals are available as text/csv. Ask for that, or leave Accept out.", statusCode: 406);
        }

        return await seasons.LoadAsync(context.ApiKey().ProgrammeId, name, cancel) is { } totals
            ? TypedResults.Bytes(TotalsCsv.Write(totals), ContentType)
            : TypedResults.Problem("There is no season with this name in the key's programme.", statusCode: 404);
    }

    private static async Task<Results<FileContentHttpResult, NotFound>> DownloadAsync(
        string name, HttpContext context, TotalsOfSeason seasons, CancellationToken cancel) =>
        await seasons.LoadAsync(CurrentUser.From(context.User)!.ProgrammeId, name, cancel) is { } totals
            ? TypedResults.Bytes(TotalsCsv.Write(totals), ContentType, FileName(totals))
            : TypedResults.NotFound();

    /// <summary>Nothing asked, everything asked, or this type asked; a type with q=0 is one that is not wanted.</summary>
    private static bool TakesCsv(HttpRequest request)
    {
        var accepted = request.GetTypedHeaders().Accept;
        if (accepted.Count == 0)
        {
            return true;
        }

        var csv = new MediaTypeHeaderValue(Csv);
        var closest = accepted.Where(a => a.MatchesAllTypes || csv.IsSubsetOf(new MediaTypeHeaderValue(a.MediaType)))
            .MaxBy(a => a.MatchesAllTypes ? 0 : a.MatchesAllSubTypes ? 1 : 2);
        return closest is not null && closest.Quality is not 0;
    }

    private static string FileName(SeasonTotals totals) =>
        string.Concat($"{totals.Programme} {totals.Season} totals".Select(c => char.IsLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-')) + ".csv";
}
