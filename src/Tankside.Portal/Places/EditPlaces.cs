namespace Tankside.Portal.Places;

/// <summary>What a lead changes about places: closures and schools' hours.</summary>
public static class EditPlaces
{
    public static void AddPlaceEditing(this IServiceCollection services)
    {
        services.AddScoped<EditClosures>();
        services.AddScoped<EditSchoolHours>();
    }
}
