using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Flags.FirstPages;

namespace Tankside.Portal.Flags;

/// <summary>Flags and the morning round.</summary>
public static class FlagsFeature
{
    public static void AddFlags(this IServiceCollection services)
    {
        services.AddSingleton<RoundFeed>();
        services.AddSingleton<JudgeHealth>();
        services.AddSingleton<Judge>();
        services.AddSingleton<WrongCodes>();
        services.AddScoped<TankByCode>();
        services.AddScoped<TodaysReading>();
        services.AddScoped<Round>();
        services.AddScoped<ActOnFlag>();
        services.AddScoped<SettledFlags>();
        services.AddScoped<OurTank>();
        services.AddScoped<TankRegister>();
        services.AddScoped<Homes>();
        services.AddHostedService<JudgeWorker>();
    }
}
