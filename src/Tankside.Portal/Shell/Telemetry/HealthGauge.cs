using System.Collections.Concurrent;
using System.Diagnostics.Metrics;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace Tankside.Portal.Shell.Telemetry;

/// <summary>What the health checks last said, as measurements: 1 healthy, 0.5 degraded, 0 unhealthy.</summary>
internal sealed class HealthGauge : IHealthCheckPublisher
{
    private readonly ConcurrentDictionary<string, double> last = new();

    public HealthGauge(IMeterFactory meters) => meters.Create(PortalMeter.Name).CreateObservableGauge(
        "tankside.health", () => last.Select(c => new Measurement<double>(c.Value, new KeyValuePair<string, object?>("check", c.Key))), "1",
        "What each health check last said: 1 healthy, 0.5 degraded, 0 unhealthy.");

    public Task PublishAsync(HealthReport report, CancellationToken cancellationToken)
    {
        foreach (var (name, entry) in report.Entries)
        {
            last[name] = entry.Status switch
            {
                HealthStatus.Healthy => 1,
                HealthStatus.Degraded => 0.5,
                HealthStatus.Unhealthy => 0,
            };
        }

        return Task.CompletedTask;
    }
}
