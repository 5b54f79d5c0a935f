using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Flags.Changes;

/// <summary>The record of changes as a table to keep.</summary>
public static class ChangesFile
{
    public static void AddChanges(this IServiceCollection services) => services.AddScoped<ChangeBook>();

    public static void MapChanges(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/changes.csv", WriteAsync).RequireAuthorization(Policies.Round).ExcludeFromDescription();

    private static async Task<FileContentHttpResult> WriteAsync(
        HttpContext http, ChangeBook book, string? what, string? who, string? from, string? to, string? word, CancellationToken cancel)
    {
        var lines = await book.AllAsync(CurrentUser.From(http.User)!, ChangeFilter.Of(what, who, from, to, word, null), cancel);
        var csv = new StringBuilder("when,who,what,name,change,before and after\r\n");
        foreach (var line in lines)
        {
            csv.Append(TotalsCsv.Line(
            [
                line.Local.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture), line.Who, line.What, line.Name, line.Kind, string.Join("; ", line.Fields),
            ])).Append("\r\n");
        }

        return TypedResults.Bytes(new UTF8Encoding(true).GetPreamble().Concat(Encoding.UTF8.GetBytes(csv.ToString())).ToArray(), "text/csv; charset=utf-8", "changes.csv");
    }
}
