using System.Data.Common;
using Microsoft.EntityFrameworkCore;

namespace Tankside.Portal.Digests.Keeping;

/// <summary>Lets go once a day, and at the start. Two portals at it at once delete the same rows once.</summary>
public sealed class LetGoWorker(LetGo letGo, TimeProvider time, ILogger<LetGoWorker> log) : BackgroundService
{
    private static readonly TimeSpan Day = TimeSpan.FromHours(24), AfterTrouble = TimeSpan.FromMinutes(10);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            var next = Day;
            try
            {
                if (await letGo.RunAsync(stoppingToken) is > 0 and var count)
                {
                    log.LogInformation("{Count} rows were kept long enough and are deleted", count);
                }
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e) when (e is DbException or DbUpdateException or InvalidOperationException or TimeoutException)
            {
                next = AfterTrouble;
                log.LogError(e, "What was kept long enough could not be deleted; trying again in ten minutes");
            }

            await Task.Delay(next, time, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }
}
