using System.Threading.RateLimiting;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.RateLimiting;
using MudBlazor.Services;

namespace Tankside.Portal.Shell;

/// <summary>What every page stands in: components, problems, limits, headers.</summary>
public static class ShellFeature
{
    /// <summary>Tries a minute and address at a door that guards a secret: passwords and room codes.</summary>
    private const int TriesAMinute = 20;

    public static void AddShell(this IServiceCollection services)
    {
        services.AddRazorComponents().AddInteractiveServerComponents();
        services.AddMudServices();
        services.AddHttpContextAccessor();
        services.AddScoped<Nonce>();
        services.AddResponseCompression(o => o.EnableForHttps = true);
        services.AddProblemDetails();
        services.AddOpenApi("v1");
        services.AddHealth();
        services.AddSingleton<Neighbours>();
        services.AddHostedService(s => s.GetRequiredService<Neighbours>());
        services.Configure<ForwardedHeadersOptions>(o =>
            o.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost);
        services.AddRateLimiter(AddLimits);
    }

    private static void AddLimits(RateLimiterOptions options)
    {
        options.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        options.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(context =>
        {
            var address = context.Connection.RemoteIpAddress?.ToString() ?? "unknown";
            var path = context.Request.Path;
            return path.StartsWithSegments("/api") ? Window("api " + address, context.RequestServices.GetRequiredService<TanksideOptions>().ApiCallsAMinute)
                : HttpMethods.IsPost(context.Request.Method) && GuardsASecret(path) ? Window("door " + address, TriesAMinute)
                : RateLimitPartition.GetNoLimiter("pages");
        });
        options.OnRejected = (rejected, cancel) => new ValueTask(
            rejected.HttpContext.RequestServices.GetRequiredService<IProblemDetailsService>().WriteAsync(new ProblemDetailsContext
            {
                HttpContext = rejected.HttpContext,
                ProblemDetails = { Status = 429, Detail = "Too many calls from this address within a minute. Wait a minute and send it again; nothing was stored." },
            }).AsTask());
    }

    private static bool GuardsASecret(PathString path) =>
        path.StartsWithSegments("/sign-in") || path.StartsWithSegments("/forgot-password")
        || path.StartsWithSegments("/reset-password") || path.StartsWithSegments("/invitation") || path.StartsWithSegments("/set-up");

    private static RateLimitPartition<string> Window(string key, int permits) => RateLimitPartition.GetFixedWindowLimiter(
        key, _ => new FixedWindowRateLimiterOptions { PermitLimit = permits, Window = TimeSpan.FromMinutes(1) });
}
