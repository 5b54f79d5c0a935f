using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Tankside.Storage;

namespace Tankside.Portal.Shell;

/// <summary>Whether this machine's clock agrees with the database's. An embedded database has this machine's, and there is nothing to compare.</summary>
public sealed class ClockCheck(IDbContextFactory<HatcheryDb> databases, TimeProvider time) : IHealthCheck
{
    /// <summary>A clock further from the database's than this makes times of readings wrong.</summary>
    private static readonly TimeSpan Slack = TimeSpan.FromSeconds(30);

    public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        try
        {
            await using var db = await databases.CreateDbContextAsync(cancellationToken);
            if (!db.Database.IsNpgsql())
            {
                return HealthCheckResult.Healthy("no other clock to compare with");
            }

            var theirs = await db.Database.SqlQuery<DateTime>($"SELECT clock_timestamp() AS \"Value\"").SingleAsync(cancellationToken);
            var apart = (time.GetUtcNow().UtcDateTime - theirs.ToUniversalTime()).Duration();
            var words = string.Create(CultureInfo.InvariantCulture, $"{apart.TotalSeconds:0.0} s from the database's");
            return apart < Slack ? HealthCheckResult.Healthy(words) : HealthCheckResult.Degraded(words);
        }
        catch (Exception e) when (e is DbException or InvalidOperationException)
        {
            return HealthCheckResult.Degraded("the database did not say its time", e);
        }
    }
}
