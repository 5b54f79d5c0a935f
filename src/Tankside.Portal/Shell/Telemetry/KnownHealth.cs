using System.Diagnostics.Metrics;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace Tankside.Portal.Shell.Telemetry;

/// <summary>What the health checks last said, twice a minute, so that a page or a measurement can tell it without asking anything.</summary>
public sealed class KnownHealth : IHealthCheckPublisher
{
    private volatile HealthReport? last;

    public KnownHealth(IMeterFactory meters) => meters.Create(PortalMeter.Name).CreateObservableGauge(
        "tankside.health", Measured, "1", "What each health check last said: 1 healthy, 0.5 degraded, 0 unhealthy.");

    /// <summary>Null until they were asked for the first time.</summary>
    public HealthReport? Last => last;

    public static void Add(IServiceCollection services)
    {
        services.AddSingleton<KnownHealth>();
        services.AddSingleton<IHealthCheckPublisher>(s => s.GetRequiredService<KnownHealth>());
        services.Configure<HealthCheckPublisherOptions>(o => (o.Delay, o.Period) = (TimeSpan.FromSeconds(30), TimeSpan.FromSeconds(30)));
    }

    public Task PublishAsync(HealthReport report, CancellationToken cancellationToken)
    {
        last = report;
        return Task.CompletedTask;
    }

    private IEnumerable<Measurement<double>> Measured() => last is not { } report ? []
        : report.Entries.Select(e => new Measurement<double>(Of(e.Value.Status), new KeyValuePair<string, object?>("check", e.Key)));

    private static double Of(HealthStatus status) => status switch
    {
        HealthStatus.Healthy => 1,
        HealthStatus.Degraded => 0.5,
        HealthStatus.Unhealthy => 0,
    };
}
