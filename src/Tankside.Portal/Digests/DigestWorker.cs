using System.Data.Common;
using Microsoft.EntityFrameworkCore;

namespace Tankside.Portal.Digests;

/// <summary>Looks whether a morning mail or a reminder of a report is due.</summary>
public sealed class DigestWorker(MorningDigest digest, ReportReminders reminders, TimeProvider time, ILogger<DigestWorker> log) : BackgroundService
{
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(20);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                if (await digest.WriteDueAsync(stoppingToken) is > 0 and var count)
                {
                    log.LogInformation("{Count} morning mails are written", count);
                }

                if (await reminders.WriteDueAsync(stoppingToken) is > 0 and var reminded)
                {
                    log.LogInformation("{Count} reminders of reports are written", reminded);
                }
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e) when (e is DbException or DbUpdateException or InvalidOperationException or TimeoutException)
            {
                log.LogError(e, "The morning mails could not be written; trying again soon");
            }

            await Task.Delay(Look, time, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }
}
