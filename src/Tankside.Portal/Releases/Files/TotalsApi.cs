using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.Files;

/// <summary>The season totals over HTTP: for a program with a coordinator's key, and as downloads for those who may see the page.</summary>
public static class TotalsApi
{
    public static void MapTotals(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/v1/seasons/{name}/totals", GetAsync)
            .RequireAuthorization(Policies.CoordinatorKey)
            .WithTags("Totals")
            .WithSummary("The season totals of the key's programme")
            .WithDescription("As text/csv (one row a tank, UTF-8 with a byte order mark), as a spreadsheet, or as application/pdf, whichever Accept prefers.")
            .Produces<string>(200, TotalsFile.All[0].MediaType, [.. TotalsFile.All.Skip(1).Select(f => f.MediaType)])
            .ProducesProblem(401).ProducesProblem(403).ProducesProblem(404).ProducesProblem(406);
        foreach (var file in TotalsFile.All)
        {
            routes.MapGet("/totals/{name}" + file.Ending, (string name, HttpContext context, TotalsOfSeason seasons, CancellationToken cancel) =>
                DownloadAsync(file, name, context, seasons, cancel)).RequireAuthorization(Policies.Totals).ExcludeFromDescription();
        }
    }

    private static async Task<Results<FileStreamHttpResult, ProblemHttpResult>> GetAsync(
        string name, HttpContext context, TotalsOfSeason seasons, CancellationToken cancel)
    {
        context.Response.Headers.Vary = new StringValues(HeaderNames.Accept);
        if (Preferred(context.Request) is not { } file)
        {
            return TypedResults.Problem($"The totals are available as {string.Join(", ", TotalsFile.All.Select(f => f.MediaType))}. Ask for one of them, or leave Accept out for the first.", statusCode: 406);
        }

        return await seasons.LoadAsync(context.ApiKey().ProgrammeId, name, cancel) is { } totals
            ? TypedResults.Stream(await DraftAsync(file, totals, cancel), file.ContentType)
            : TypedResults.Problem("There is no season with this name in the key's programme.", statusCode: 404);
    }

    private static async Task<Results<FileStreamHttpResult, NotFound>> DownloadAsync(
        TotalsFile file, string name, HttpContext context, TotalsOfSeason seasons, CancellationToken cancel) =>
        await seasons.LoadAsync(CurrentUser.From(context.User)!.ProgrammeId, name, cancel) is { } totals
            ? TypedResults.Stream(await DraftAsync(file, totals, cancel), file.ContentType, file.NameOf(totals))
            : TypedResults.NotFound();

    /// <summary>Written beside first: an answer that has begun could not say any more that the rest of it failed.</summary>
    private static async Task<Stream> DraftAsync(TotalsFile file, SeasonTotals totals, CancellationToken cancel)
    {
        var draft = ReproducibleZip.Draft();
        try
        {
            await file.WriteAsync(totals, draft, null, cancel);
            draft.Position = 0;
            return draft;
        }
        catch
        {
            await draft.DisposeAsync();
            throw;
        }
    }

    /// <summary>The kind that is wanted most; of those wanted alike the first. Null when none is.</summary>
    private static TotalsFile? Preferred(HttpRequest request)
    {
        var accepted = request.GetTypedHeaders().Accept;
        return accepted.Count == 0
            ? TotalsFile.All[0]
            : TotalsFile.All.Select(f => (File: f, Wanted: Wanted(accepted, f))).Where(f => f.Wanted > 0)
                .Aggregate(((TotalsFile File, double Wanted)?)null, (best, f) => best?.Wanted >= f.Wanted ? best : f)?.File;
    }

    /// <summary>From 0, not wanted, to 1; the most exact of the types that fit says it.</summary>
    private static double Wanted(IList<MediaTypeHeaderValue> accepted, TotalsFile file)
    {
        var type = new MediaTypeHeaderValue(file.MediaType);
        return accepted.Where(a => a.MatchesAllTypes || type.IsSubsetOf(new MediaTypeHeaderValue(a.MediaType)))
            .MaxBy(a => a.MatchesAllTypes ? 0 : a.MatchesAllSubTypes ? 1 : 2) is { } closest ? closest.Quality ?? 1 : 0;
    }
}
