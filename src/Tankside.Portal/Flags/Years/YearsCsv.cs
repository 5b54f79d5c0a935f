using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Hatchery.Flags.Years;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Research;
using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Flags.Years;

/// <summary>
/// Year on year as a file: one row a season and measure, each with its interval and what it is out of. Percentages have two decimals, hours
/// too; a value that is not known is blank.
/// </summary>
public static class YearsCsv
{
    private static readonly string[] Head = ["season", "measure", "cause", "value", "unit", "low", "high", "n", "of"];

    public static void MapYears(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/totals/years/seasons.csv", DownloadAsync).RequireAuthorization(Policies.Round).ExcludeFromDescription();

    private static async Task<FileContentHttpResult> DownloadAsync(HttpContext context, SeasonYears years, CancellationToken cancel) => TypedResults.Bytes(
        Write(await years.LoadAsync(CurrentUser.From(context.User)!.ProgrammeId, cancel)), TotalsFile.All[0].ContentType, "year-on-year.csv");

    public static byte[] Write(IReadOnlyList<SeasonYear> years)
    {
        var text = new StringBuilder(TotalsCsv.Line(Head)).Append("\r\n");
        foreach (var row in years.SelectMany(RowsOf))
        {
            text.Append(TotalsCsv.Line(row)).Append("\r\n");
        }

        return [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text.ToString())];
    }

    private static IEnumerable<object?[]> RowsOf(SeasonYear year)
    {
        yield return [year.Season, "tanks-finished", "", year.Survival.Finished, "tanks", null, null, year.Survival.Finished, year.Survival.Supplied];
        yield return Share(year.Season, "egg-to-release", year.Survival.Rate, year.Survival.Released, year.Survival.Of);
        yield return Share(year.Season, "tanks-with-chiller-failure", year.ChillerRate, year.ChillerTanks, year.Supplied);
        yield return Median(year.Season, "unseen-before-flag-at-most", year.HoursUnseen);
        yield return Median(year.Season, "flag-to-first-deed", year.HoursToAct);
        foreach (var loss in year.Losses)
        {
            yield return [year.Season, "died", ResearchRows.Word(loss.Cause?.ToString()) ?? "no-trouble-on-record", Percent(100.0 * loss.Count / year.Lost), "percent", null, null, loss.Count, year.Lost];
        }
    }

    private static object?[] Share(string season, string measure, Survival rate, int n, int of) =>
        [season, measure, "", Percent(rate.Percent), "percent", Percent(rate.Low), Percent(rate.High), n, of];

    private static object?[] Median(string season, string measure, Typical hours) =>
        [season, measure, "", Percent(hours.Median), "hours", Percent(hours.Low), Percent(hours.High), hours.Known, hours.Of];

    private static object? Percent(double? value) => value is { } known ? (decimal)known : null;
}
