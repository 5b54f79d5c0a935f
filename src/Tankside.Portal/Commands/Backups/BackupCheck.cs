using Microsoft.Extensions.Diagnostics.HealthChecks;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands.Backups;

/// <summary>
/// How old the newest backup is, where the operator said in which folder it should lie. The files say it themselves, so that it is known also
/// when the database is what was lost.
/// </summary>
public sealed class BackupCheck(TanksideOptions options, TimeProvider time) : IHealthCheck
{
    /// <summary>A night's backup that failed once is still within it, twice not.</summary>
    private static readonly TimeSpan TooOld = TimeSpan.FromHours(50);

    public static void Add(IServiceCollection services) => services.AddHealthChecks().AddCheck<BackupCheck>("backup", tags: ["ready"]);

    public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        if (options.Backups is not { } folder)
        {
            return HealthCheckResult.Healthy("name the folder in Tankside:Backups to be told how old the newest is", CheckWords.NotLookedAt);
        }

        try
        {
            return !Directory.Exists(folder) ? HealthCheckResult.Degraded($"there is no folder {folder} (Tankside:Backups)")
                : await KeptBackups.NewestAsync(folder, cancellationToken) is var (file, about) ? Told(file, about)
                : HealthCheckResult.Degraded($"no backup lies in {folder}");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return HealthCheckResult.Degraded($"the folder {folder} cannot be read: {e.Message}", e);
        }
    }

    private HealthCheckResult Told(string file, BackupAbout about)
    {
        var age = time.GetUtcNow().UtcDateTime - about.At;
        var words = FormattableString.Invariant($"the newest is {age.TotalHours:0} hours old, {Path.GetFileName(file)}, {about.Rows:#,0} rows");
        return age <= TooOld ? HealthCheckResult.Healthy(words) : HealthCheckResult.Degraded(words);
    }
}
