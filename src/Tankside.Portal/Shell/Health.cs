using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Tankside.Storage;

namespace Tankside.Portal.Shell;

/// <summary>Live: the process answers. Ready: it can also reach its database with the newest schema.</summary>
public static class Health
{
    public static void AddHealth(this IServiceCollection services, TanksideOptions options)
    {
        var checks = services.AddHealthChecks().AddCheck<DatabaseCheck>("database", tags: ["ready"]).AddCheck<DiskCheck>("disk", tags: ["ready"])
            .AddCheck<ClockCheck>("clock", tags: ["ready"]);
        if (options.Database.IsOnSeveral())
        {
            services.AddSingleton<ReplicaCheck>(); // Remembers from look to look.
            checks.AddCheck<ReplicaCheck>("replica", tags: ["ready"]);
        }
    }

    public static void MapHealth(this IEndpointRouteBuilder routes)
    {
        routes.MapHealthChecks("/health/live", Options(_ => false)).AllowAnonymous();
        routes.MapHealthChecks("/health/ready", Options(check => check.Tags.Contains("ready"))).AllowAnonymous();
    }

    private static HealthCheckOptions Options(Func<HealthCheckRegistration, bool> which) => new()
    {
        Predicate = which,
        ResponseWriter = (context, report) => context.Response.WriteAsJsonAsync(new
        {
            status = report.Status.ToString().ToLowerInvariant(),
            checks = report.Entries.ToDictionary(e => e.Key, e => e.Value.Status.ToString().ToLowerInvariant()),
        }),
    };

    private sealed class DatabaseCheck(Microsoft.EntityFrameworkCore.IDbContextFactory<HatcheryDb> databases) : IHealthCheck
    {
        public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
        {
            try
            {
                await using var db = await databases.CreateDbContextAsync(cancellationToken);
                var pending = await Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.GetPendingMigrationsAsync(db.Database, cancellationToken);
                return pending.Any() ? HealthCheckResult.Unhealthy("its schema is older than the program; run the command migrate") : HealthCheckResult.Healthy("answers, newest schema");
            }
            catch (Exception e) when (e is System.Data.Common.DbException or InvalidOperationException)
            {
                return HealthCheckResult.Unhealthy("does not answer", e);
            }
        }
    }
}
