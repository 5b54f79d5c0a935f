using System.Globalization;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace Tankside.Portal.Flags;

/// <summary>A portal whose judge has fallen silent still takes readings: it says "degraded" and goes on.</summary>
internal sealed class SweepCheck(JudgeHealth health, TimeProvider time) : IHealthCheck
{
    /// <summary>A sweep is due each minute. A portal that has just started, or waits for a database that changes places, has this long.</summary>
    private static readonly TimeSpan Late = TimeSpan.FromMinutes(5);

    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default) =>
        Task.FromResult((health.LastSweepAt ?? health.BeganAt) is not { } last ? HealthCheckResult.Healthy("not begun yet")
            : new HealthCheckResult(Since(last) > Late ? HealthStatus.Degraded : HealthStatus.Healthy, Told(last)));

    private TimeSpan Since(DateTime last) => time.GetUtcNow().UtcDateTime - last;

    private string Told(DateTime last)
    {
        var seconds = Since(last).TotalSeconds.ToString("0", CultureInfo.InvariantCulture);
        var told = health.Took is { } took
            ? $"the last ended {seconds} s ago and took {took.TotalSeconds.ToString("0.0", CultureInfo.InvariantCulture)} s"
            : $"none has ended since the portal began {seconds} s ago";
        return health.Trouble is { } trouble ? $"{told}; the last try failed ({trouble})" : told;
    }
}
