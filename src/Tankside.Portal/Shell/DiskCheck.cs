using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace Tankside.Portal.Shell;

/// <summary>Room on the disk that the data folder lies on. Told before it is gone: an embedded database that finds none refuses every reading.</summary>
public sealed class DiskCheck(TanksideOptions options) : IHealthCheck
{
    private const long Least = 500L << 20;

    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default) =>
        Task.FromResult(FreeBytes(options.DataFolder) is not { } free ? HealthCheckResult.Healthy("nobody can tell here")
            : new HealthCheckResult(free < Least ? HealthStatus.Degraded : HealthStatus.Healthy, FormattableString.Invariant($"{free >> 20:#,0} MB left for the data folder")));

    /// <summary>Null where nobody can tell.</summary>
    public static long? FreeBytes(string folder)
    {
        try
        {
            // The folder may not have been made yet; whatever it will lie in is there.
            for (var at = new DirectoryInfo(folder); at is not null; at = at.Parent)
            {
                if (at.Exists)
                {
                    return new DriveInfo(at.FullName).AvailableFreeSpace;
                }
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return null;
        }

        return null;
    }
}
