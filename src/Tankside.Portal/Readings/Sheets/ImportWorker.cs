using System.Data.Common;
using Microsoft.EntityFrameworkCore;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>Stores sheets: at once when somebody let one be stored, and by the clock those that a portal left half done.</summary>
public sealed class ImportWorker(WaitingImports waiting, ImportQueue queue, TimeProvider time, ILogger<ImportWorker> log) : BackgroundService
{
    /// <summary>How often half done imports are looked for.</summary>
    public static readonly TimeSpan Look = TimeSpan.FromSeconds(15);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await waiting.StoreAsync(stoppingToken);
                await queue.WaitAsync(Look, time, stoppingToken);
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e) when (e is DbException or DbUpdateException or InvalidOperationException or TimeoutException or IOException)
            {
                // The database is away; what is not stored yet stands in it.
                log.LogError(e, "An import could not go on; trying again soon");
                await Task.Delay(Look, time, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }
}
