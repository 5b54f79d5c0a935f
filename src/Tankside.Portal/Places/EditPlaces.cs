using Tankside.Portal.People;
using Tankside.Portal.Places.Labels;
using Tankside.Portal.Places.Register;
using Tankside.Portal.Places.Sheets;

namespace Tankside.Portal.Places;

/// <summary>What is changed about places: schools with their rooms and tanks, closures, room codes.</summary>
public static class EditPlaces
{
    public static void AddPlaceEditing(this IServiceCollection services)
    {
        services.AddSingleton<KnownWays>();
        services.AddScoped<EditClosures>();
        services.AddScoped<SchoolRegister>();
        services.AddScoped<KeepSchool>();
        services.AddScoped<KeepRoom>();
        services.AddScoped<KeepBackup>();
        services.AddSingleton<IForgetsPerson, ForgetsInRooms>();
        services.AddScoped<KeepTank>();
        services.AddScoped<TakeOut>();
        services.AddScoped<SchoolLabels>();
        services.AddScoped<ReplaceCode>();
        services.AddPlaceSheets();
    }
}
