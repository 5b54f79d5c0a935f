using Tankside.Portal.Readings;

namespace Tankside.Portal.Releases;

/// <summary>The fish ledger, releases and the season's account.</summary>
public static class ReleasesFeature
{
    public static void AddReleases(this IServiceCollection services)
    {
        services.AddSingleton<ISavedWithReading, LossLines>();
        services.AddScoped<TotalsOfSeason>();
    }
}
