namespace Tankside.Portal.Seasons.SetUp;

/// <summary>The first start of an installation: its programme, its lead, its first season.</summary>
public static class SetUpFeature
{
    public static void AddSetUp(this IServiceCollection services) => services.AddScoped<SetUpProgramme>();
}
