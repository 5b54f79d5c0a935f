using Microsoft.AspNetCore.Components.Server.Circuits;
using Microsoft.AspNetCore.HttpOverrides;
using MudBlazor.Services;

namespace Tankside.Portal.Shell;

/// <summary>What every page stands in: components, problems, limits, headers.</summary>
public static class ShellFeature
{
    public static void AddShell(this IServiceCollection services, TanksideOptions options)
    {
        services.AddRazorComponents().AddInteractiveServerComponents();
        services.AddMudServices();
        services.AddHttpContextAccessor();
        services.AddSpokenLanguage();
        services.AddScoped<Nonce>();
        services.AddResponseCompression(o => o.EnableForHttps = true);
        services.AddProblemDetails();
        services.AddOpenApi("v1");
        services.AddOutputCache();
        services.AddHealth(options);
        // A page that is open holds a portal that is told to stop until this is over; what is being saved needs less.
        services.Configure<HostOptions>(o => o.ShutdownTimeout = TimeSpan.FromSeconds(10));
        services.AddSingleton<OpenPages>();
        services.AddSingleton<CircuitHandler>(s => s.GetRequiredService<OpenPages>());
        services.AddSingleton<Neighbours>();
        services.AddHostedService(s => s.GetRequiredService<Neighbours>());
        services.AddOptions<ForwardedHeadersOptions>().Configure<TanksideOptions>((o, tankside) =>
        {
            o.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost;
            foreach (var proxies in tankside.Proxies)
            {
                o.KnownIPNetworks.Add(proxies);
            }
        });
        services.AddRateLimiter(CallLimits.Add);
    }
}
