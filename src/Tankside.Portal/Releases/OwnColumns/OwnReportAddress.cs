using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Releases.OwnColumns;

/// <summary>The programme's own report as a download.</summary>
public static class OwnReportAddress
{
    public static void MapOwnReport(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/totals/own.csv", DownloadAsync).RequireAuthorization(Policies.Totals).ExcludeFromDescription();

    private static async Task<Results<FileContentHttpResult, NotFound>> DownloadAsync(
        string? season, HttpContext context, TotalsOfSeason seasons, OwnReport report, CancellationToken cancel)
    {
        var programme = CurrentUser.From(context.User)!.ProgrammeId;
        return await report.FindAsync(programme, cancel) is { } columns && await seasons.LoadAsync(programme, string.IsNullOrEmpty(season) ? null : season, cancel) is { } totals
            ? TypedResults.Bytes(OwnReport.Write(totals, ColumnMapping.Read(columns.Text)), TotalsFile.All[0].ContentType, TotalsFile.Plain(totals) + "-own-columns.csv")
            : TypedResults.NotFound();
    }
}
