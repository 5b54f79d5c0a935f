namespace Tankside.Portal.Flags.Texts;

/// <summary>What a programme says in its own words: first aid, and the names of the stages.</summary>
public static class TextsFeature
{
    public static void AddTexts(this IServiceCollection services)
    {
        services.AddScoped<KeepTexts>();
        services.AddScoped<AidShowing>();
    }
}
