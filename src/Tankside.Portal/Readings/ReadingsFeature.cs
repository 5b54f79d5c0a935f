using Tankside.Portal.Readings.Photos;
using Tankside.Portal.Readings.Sheets;
using Tankside.Portal.Readings.WallSheets;

namespace Tankside.Portal.Readings;

/// <summary>Readings: the one intake, the class page, the API, the import of sheets, wall sheets and photos.</summary>
public static class ReadingsFeature
{
    public static void AddReadings(this IServiceCollection services)
    {
        services.AddSingleton<NewFacts>();
        services.AddScoped<RecordReadings>();
        services.AddSingleton<LoggersTogether>();
        services.AddScoped<AnswerDoubt>();
        services.AddScoped<TankSheets>();
        services.AddScoped<TankPhotos>();
        services.AddImports();
    }

    private static void AddImports(this IServiceCollection services)
    {
        services.AddSingleton<ImportQueue>();
        services.AddSingleton<SheetPreviews>();
        services.AddScoped<ReceiveSheet>();
        services.AddScoped<ChangeImport>();
        services.AddScoped<JudgeRows>();
        services.AddScoped<StoreRows>();
        services.AddScoped<UndoImport>();
        services.AddScoped<ListedImports>();
        services.AddScoped<ShowImport>();
        services.AddSingleton<WaitingImports>();
        services.AddHostedService<ImportWorker>();
    }
}
