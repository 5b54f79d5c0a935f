using Tankside.Portal.Readings.Photos;
using Tankside.Portal.Readings.WallSheets;

namespace Tankside.Portal.Readings;

/// <summary>Readings: the one intake, the class page, the API.</summary>
public static class ReadingsFeature
{
    public static void AddReadings(this IServiceCollection services)
    {
        services.AddSingleton<NewFacts>();
        services.AddScoped<RecordReadings>();
        services.AddScoped<AnswerDoubt>();
        services.AddScoped<TankSheets>();
        services.AddScoped<TankPhotos>();
    }
}
