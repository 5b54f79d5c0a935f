using Tankside.Portal.Releases.NextSeason;

namespace Tankside.Portal.Flags.Numbers;

/// <summary>A programme's settings.</summary>
public static class NumbersFeature
{
    public static void AddNumbers(this IServiceCollection services)
    {
        services.AddSingleton<INumberNames, NumberNames>();
        services.AddScoped<NumberBook>();
        services.AddScoped<KeepNumber>();
        services.AddScoped<EditProgramme>();
    }
}
