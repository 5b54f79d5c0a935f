using Tankside.Portal.Kit.Loans;
using Tankside.Portal.People;
using Tankside.Portal.Places.Sheets;

namespace Tankside.Portal.Kit;

/// <summary>The register of the kit, its history, stock and spares.</summary>
public static class KitFeature
{
    public static void AddKit(this IServiceCollection services)
    {
        services.AddSingleton<IForgetsPerson, ForgetsInDepots>();
        services.AddScoped<KitRegister>();
        services.AddScoped<KitCards>();
        services.AddScoped<ActOnKit>();
        services.AddScoped<SwapKit>();
        services.AddScoped<RegisterKit>();
        services.AddScoped<CorrectKit>();
        services.AddScoped<IPlaceSheet, KitSheet>();
        services.AddScoped<EditDepots>();
        services.AddScoped<EditStock>();
        services.AddScoped<KitPhotos>();
        services.AddScoped<PlanSpares>();
    }

    public static void MapKit(this IEndpointRouteBuilder routes)
    {
        routes.MapLoans();
        routes.MapGet("/kit/{serial}/photos/{id:guid}.jpg", KitPhotos.GetAsync).RequireAuthorization(Accounts.Policies.Kit).ExcludeFromDescription();
    }
}
