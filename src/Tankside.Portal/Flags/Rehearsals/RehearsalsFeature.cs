namespace Tankside.Portal.Flags.Rehearsals;

/// <summary>Made-up mornings to practise the round on.</summary>
public static class RehearsalsFeature
{
    public static void AddRehearsals(this IServiceCollection services)
    {
        services.AddScoped<RehearsalBook>();
        services.AddScoped<WorkRehearsal>();
    }
}
