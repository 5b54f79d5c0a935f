using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace Tankside.Portal.Flags;

/// <summary>A portal whose judge has fallen silent still takes readings: it says "degraded" and goes on.</summary>
internal sealed class SweepCheck(JudgeHealth health, TimeProvider time) : IHealthCheck
{
    /// <summary>A sweep is due each minute. A portal that has just started, or waits for a database that changes places, has this long.</summary>
    private static readonly TimeSpan Late = TimeSpan.FromMinutes(5);

    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default) =>
        Task.FromResult((health.LastSweepAt ?? health.BeganAt) is { } last && time.GetUtcNow().UtcDateTime - last > Late
            ? HealthCheckResult.Degraded(FormattableString.Invariant($"no sweep since {last:u}"))
            : HealthCheckResult.Healthy());
}
