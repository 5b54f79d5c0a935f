using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Flags.Research;

/// <summary>The researchers' file as a download.</summary>
public static class ResearchAddress
{
    public static void MapResearch(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/totals/{name}/research.zip", DownloadAsync).RequireAuthorization(Policies.Round).ExcludeFromDescription();

    private static async Task<Results<FileStreamHttpResult, NotFound>> DownloadAsync(string name, HttpContext context, ResearchFiles files, CancellationToken cancel)
    {
        var draft = ReproducibleZip.Draft();
        if (!await files.WriteAsync(CurrentUser.From(context.User)!.ProgrammeId, name, draft, cancel))
        {
            await draft.DisposeAsync();
            return TypedResults.NotFound();
        }

        draft.Position = 0;
        return TypedResults.Stream(draft, "application/zip", "season-for-researchers.zip");
    }
}
