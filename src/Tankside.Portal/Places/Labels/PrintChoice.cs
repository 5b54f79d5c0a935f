using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Places.Labels;

/// <summary>What somebody chose to print on.</summary>
public static class PrintChoice
{
    /// <summary>Letter when nothing was asked for, where the programmes are; null for a paper that there is not.</summary>
    public static PaperSize? Paper(string? asked) => string.IsNullOrEmpty(asked) ? PaperSize.Letter : PaperSize.Named(asked);

    /// <summary>What a programme is offered first: who reads °F prints on Letter.</summary>
    public static PaperSize Usual(Programme programme) => programme.ScreenUnit == TemperatureUnit.F ? PaperSize.Letter : PaperSize.A4;

    /// <summary>The Monday of the week that a day lies in; null for what is no day.</summary>
    public static DateOnly? Week(string? asked) =>
        DateOnly.TryParseExact(asked, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) && day.Year is > 2000 and < 2100
            ? MondayOf(day)
            : null;

    /// <summary>The week that one prints for: this one, and from Saturday on the next.</summary>
    public static DateOnly NextWeek(DateOnly today) => MondayOf(today.AddDays(2));

    public static ContentHttpResult NoSuchPaper() =>
        Refused($"There is no such paper here. Ask for {string.Join(" or ", PaperSize.All.Select(p => $"paper={p.Name}"))}.");

    /// <summary>A file cannot tell what was wrong with its address, so a line of text does.</summary>
    public static ContentHttpResult Refused(string why) => TypedResults.Text(why, "text/plain; charset=utf-8", statusCode: StatusCodes.Status400BadRequest);

    private static DateOnly MondayOf(DateOnly day) => day.AddDays(-(((int)day.DayOfWeek + 6) % 7));
}
