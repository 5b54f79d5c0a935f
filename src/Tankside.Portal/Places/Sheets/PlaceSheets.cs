using System.Text;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Places.Sheets;

/// <summary>Sheets of schools, rooms, people, kit and closures: what is made for them, and an example of each to download.</summary>
public static class PlaceSheets
{
    public static void AddPlaceSheets(this IServiceCollection services)
    {
        services.AddScoped<IPlaceSheet, SchoolSheet>();
        services.AddScoped<IPlaceSheet, RoomSheet>();
        services.AddScoped<IPlaceSheet, PeopleSheet>();
        services.AddScoped<IPlaceSheet, ClosureSheet>();
        services.AddScoped<PlanPlaces>();
        services.AddScoped<ReceivePlaces>();
        services.AddScoped<ReceiveCalendar>();
        services.AddScoped<ChangePlaceImport>();
        services.AddScoped<StorePlaces>();
        services.AddScoped<UndoPlaces>();
        services.AddScoped<ShownPlaces>();
    }

    public static void MapExampleSheets(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/places/import/examples/{holds}.csv", GetExample).RequireAuthorization(Policies.Round).ExcludeFromDescription();

    /// <summary>The headings of a kind of sheet, and one made-up row.</summary>
    private static IResult GetExample(string holds, IEnumerable<IPlaceSheet> kinds)
    {
        if (!Enum.TryParse<PlaceSheet>(holds, ignoreCase: true, out var wanted) || kinds.SingleOrDefault(k => k.Holds == wanted) is not { } kind)
        {
            return TypedResults.NotFound();
        }

        var text = SheetTexts.Line(kind.Fields.Select(f => f.Headings[0])) + SheetTexts.Line(kind.Example);
        return TypedResults.File([.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text)], "text/csv; charset=utf-8; header=present", $"{holds.ToLowerInvariant()}.csv");
    }
}
