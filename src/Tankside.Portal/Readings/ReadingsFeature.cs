namespace Tankside.Portal.Readings;

/// <summary>Readings: the one intake, the class page, the API.</summary>
public static class ReadingsFeature
{
    public static void AddReadings(this IServiceCollection services)
    {
        services.AddSingleton<NewFacts>();
        services.AddScoped<RecordReadings>();
        services.AddScoped<AnswerDoubt>();
    }
}
