using Tankside.Portal.Places.Labels;
using Tankside.Portal.Places.Sheets;

namespace Tankside.Portal.Places;

/// <summary>What is changed about places: closures, schools' hours, room codes.</summary>
public static class EditPlaces
{
    public static void AddPlaceEditing(this IServiceCollection services)
    {
        services.AddScoped<EditClosures>();
        services.AddScoped<EditSchoolHours>();
        services.AddScoped<SchoolLabels>();
        services.AddScoped<ReplaceCode>();
        services.AddPlaceSheets();
    }
}
