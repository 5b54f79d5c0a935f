using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.People;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>Delivery runs: planning them, driving them, ticking them off.</summary>
public static class RunsFeature
{
    public static void AddRuns(this IServiceCollection services)
    {
        services.AddSingleton<IForgetsPerson, ForgetsInRuns>();
        services.AddSingleton(PlanPatience.Usual);
        services.AddSingleton<PlanRun>();
        services.AddScoped<RunBoard>();
        services.AddScoped<RunContacts>();
        services.AddScoped<EditRun>();
        services.AddScoped<EditStops>();
        services.AddScoped<EditTerms>();
        services.AddScoped<TellStops>();
        services.AddSingleton(new MustArrive(TellStops.KeyStart, "you have a part in this delivery of eggs", "usted participa en esta entrega de huevos"));
        services.AddScoped<TakeTick>();
    }
}
